import { dayMs } from './calendar.ts';

const fixedOffset = /^([+-])(\d{2}):(\d{2})$/;
const formats = new Map<string, Intl.DateTimeFormat | null>();

function formatOf(zone: string): Intl.DateTimeFormat | null {
  let format = formats.get(zone);
  if (format === undefined) {
    format = makeFormat(zone);
    formats.set(zone, format);
  }
  return format;
}

function makeFormat(zone: string): Intl.DateTimeFormat | null {
  try {
    return new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric'
    });
  } catch {
    // The only error the constructor has for these arguments: the zone is unknown.
    return null;
  }
}

/** Minutes ahead of UTC of a fixed offset such as `+05:30`, NaN where the text is none. */
function fixedMinutes(zone: string): number {
  const match = fixedOffset.exec(zone);
  if (match === null) return NaN;
  const minutes = Number(match[2]) * 60 + Number(match[3]);
  return minutes > 14 * 60 || Number(match[3]) > 59 ? NaN : match[1] === '-' ? -minutes : minutes;
}

/** True for an IANA zone the engine knows and for a fixed offset. */
export function isZone(zone: string): boolean {
  return !Number.isNaN(fixedMinutes(zone)) || (zone !== '' && !/^[+-]/.test(zone) && formatOf(zone) !== null);
}

/** Milliseconds a zone is ahead of UTC at an instant, NaN where the zone is unknown. */
export function offsetMsAt(zone: string, utcMs: number): number {
  const fixed = fixedMinutes(zone);
  if (!Number.isNaN(fixed)) return fixed * 60_000;
  const format = formatOf(zone);
  if (format === null) return NaN;
  const found: Record<'year' | 'month' | 'day' | 'hour' | 'minute' | 'second', number> = {
    year: 0,
    month: 0,
    day: 0,
    hour: 0,
    minute: 0,
    second: 0
  };
  for (const { type, value } of format.formatToParts(utcMs)) {
    if (type in found && type !== 'literal') found[type as keyof typeof found] = Number(value);
  }
  const local = Date.UTC(found.year, found.month - 1, found.day, found.hour, found.minute, found.second);
  return local - Math.floor(utcMs / 1000) * 1000;
}

/** Result of a local time: an instant, or that the clock change doubles it or leaves it out. */
export type LocalResult = 'one' | 'doubled' | 'missing' | 'noZone';

/**
 * Turns local times of one zone into instants. Days without a clock change near them are looked up once; around a
 * change each time is tried with both offsets.
 */
export class ZoneClock {
  readonly #zone: string;
  /** Offset of a local day and its neighbours; NaN where they differ. */
  readonly #days = new Map<number, number>();
  /** The instant, in ms UTC: the earlier one where there are two, NaN where there is none. */
  earlierMs = NaN;
  laterMs = NaN;

  constructor(zone: string) {
    this.#zone = zone;
  }

  resolve(localMs: number): LocalResult {
    const day = Math.floor(localMs / dayMs);
    let offset = this.#days.get(day);
    if (offset === undefined) {
      const before = offsetMsAt(this.#zone, (day - 1) * dayMs);
      const after = offsetMsAt(this.#zone, (day + 2) * dayMs);
      if (Number.isNaN(before)) return 'noZone';
      offset = before === after ? before : NaN;
      this.#days.set(day, offset);
    }
    if (Number.isNaN(offset)) return this.#resolveNearChange(localMs, day);
    this.earlierMs = localMs - offset;
    this.laterMs = this.earlierMs;
    return 'one';
  }

  #resolveNearChange(localMs: number, day: number): LocalResult {
    const offsets = [offsetMsAt(this.#zone, (day - 1) * dayMs), offsetMsAt(this.#zone, (day + 2) * dayMs)];
    const instants = offsets
      .map((offset) => localMs - offset)
      .filter((utcMs) => offsetMsAt(this.#zone, utcMs) === localMs - utcMs)
      .sort((a, b) => a - b);
    this.earlierMs = instants[0] ?? NaN;
    this.laterMs = instants[instants.length - 1] ?? NaN;
    if (instants.length === 0) return 'missing';
    return instants.length > 1 && this.earlierMs !== this.laterMs ? 'doubled' : 'one';
  }
}
