import { eventKinds, eventSubjects, type EventRecord } from '#lib/data/record/index.ts';
import type { StationEntry, TankEntry, TypeEntry, VehicleEntry } from '#lib/data/settings/index.ts';

/** What a form holds: every value as typed. */
export type FormValues = Readonly<Record<string, string>>;
/** An entry out of a form, or what is wrong with it in words. */
export type Formed<E> = { readonly entry: E } | { readonly problem: string };

function textOf(values: FormValues, key: string): string {
  return (values[key] ?? '').trim();
}

/** A number of a form: null where it is blank, NaN where it is none. A decimal comma is read too. */
function numberOf(values: FormValues, key: string): number | null {
  const text = textOf(values, key).replace(',', '.');
  if (text === '') return null;
  return /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
}

function isBad(value: number | null): boolean {
  return value !== null && Number.isNaN(value);
}

function dayText(timeMs: number | null): string {
  return timeMs === null ? '' : new Date(timeMs).toISOString().slice(0, 10);
}

/** A tank as a line: `left 6250 left`, its name, usable kg and, where it counts to a wing, the side. */
function tankLine(tank: TankEntry): string {
  return `${tank.name}, ${tank.usableKg}${tank.side === null ? '' : `, ${tank.side}`}`;
}

function tankOf(line: string): TankEntry | null {
  const [name = '', mass = '', side = ''] = line.split(',').map((part) => part.trim());
  const usableKg = Number(mass);
  if (name === '' || !(usableKg > 0) || !['', 'left', 'right'].includes(side)) return null;
  return { name, usableKg, side: side === 'left' || side === 'right' ? side : null };
}

export function typeValues(type: TypeEntry | undefined): FormValues {
  return {
    code: type?.code ?? '',
    name: type?.name ?? '',
    step: type === undefined ? '' : String(type.gaugeStepKg),
    burn: type?.groundBurnKgPerMinute == null ? '' : String(type.groundBurnKgPerMinute),
    tanks: (type?.tanks ?? []).map(tankLine).join('\n')
  };
}

export function typeFrom(values: FormValues): Formed<TypeEntry> {
  const code = textOf(values, 'code');
  const step = numberOf(values, 'step');
  const burn = numberOf(values, 'burn');
  const lines = textOf(values, 'tanks')
    .split('\n')
    .filter((line) => line.trim() !== '');
  const tanks = lines.map(tankOf);
  if (code === '') return { problem: 'The type needs its code.' };
  if (step === null || !(step > 0)) return { problem: 'The gauge step must be a number of kg above 0.' };
  if (isBad(burn)) return { problem: 'The ground burn must be a number, or blank.' };
  const bad = tanks.indexOf(null);
  if (bad >= 0)
    return {
      problem: `Tank line ${bad + 1} must be: name, usable kg, and left or right where it is in a wing.`
    };
  return {
    entry: {
      code,
      name: textOf(values, 'name'),
      gaugeStepKg: step,
      tanks: tanks.filter((tank) => tank !== null),
      groundBurnKgPerMinute: burn
    }
  };
}

export function vehicleValues(vehicle: VehicleEntry | undefined): FormValues {
  return {
    code: vehicle?.code ?? '',
    station: vehicle?.station ?? '',
    class: vehicle?.accuracyClassPercent == null ? '' : String(vehicle.accuracyClassPercent),
    proved: dayText(vehicle?.provedMs ?? null),
    digits: vehicle?.meterDigits == null ? '' : String(vehicle.meterDigits)
  };
}

export function vehicleFrom(values: FormValues): Formed<VehicleEntry> {
  const code = textOf(values, 'code');
  const accuracy = numberOf(values, 'class');
  const digits = numberOf(values, 'digits');
  const proved = textOf(values, 'proved');
  if (code === '') return { problem: 'The vehicle needs its code.' };
  if (isBad(accuracy)) return { problem: 'The accuracy class must be a number of per cent, or blank.' };
  if (digits !== null && !(Number.isInteger(digits) && digits >= 4 && digits <= 12)) {
    return { problem: 'The digits of the totaliser must be a whole number from 4 to 12, or blank.' };
  }
  return {
    entry: {
      code,
      station: textOf(values, 'station'),
      accuracyClassPercent: accuracy,
      provedMs: proved === '' ? null : Date.parse(proved),
      meterDigits: digits
    }
  };
}

export function stationValues(station: StationEntry | undefined): FormValues {
  return { code: station?.code ?? '', name: station?.name ?? '', zone: station?.zone ?? '' };
}

function isZone(zone: string): boolean {
  if (/^[+-]\d{2}:\d{2}$/.test(zone)) return true;
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

export function stationFrom(values: FormValues): Formed<StationEntry> {
  const code = textOf(values, 'code');
  const zone = textOf(values, 'zone');
  if (code === '') return { problem: 'The station needs its code.' };
  if (zone !== '' && !isZone(zone))
    return { problem: 'The zone must be an offset such as +05:30, or a name such as Pacific/Auckland.' };
  return { entry: { code, name: textOf(values, 'name'), zone: zone === '' ? null : zone } };
}

export function eventValues(event: EventRecord | undefined): FormValues {
  return {
    day: dayText(event?.timeMs ?? null),
    kind: event?.kind ?? 'other',
    subject: event?.subject ?? 'tail',
    code: event?.code ?? '',
    note: event?.note ?? ''
  };
}

export function eventFrom(values: FormValues): Formed<EventRecord> {
  const timeMs = Date.parse(textOf(values, 'day'));
  const kind = eventKinds.find((each) => each === values['kind']);
  const subject = eventSubjects.find((each) => each === values['subject']);
  const code = textOf(values, 'code');
  if (Number.isNaN(timeMs)) return { problem: 'The event needs its day.' };
  if (kind === undefined || subject === undefined || code === '')
    return { problem: 'The event needs what it is and whom it is about.' };
  return { entry: { timeMs, kind, subject, code, note: textOf(values, 'note') } };
}
