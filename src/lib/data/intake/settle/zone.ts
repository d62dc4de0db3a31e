import { headerZone } from '../header/match.ts';
import type { FileEvidence } from '../evidence/file-evidence.ts';
import type { TimeReading, ZoneRule } from '../layout.ts';
import type { Reading } from '../question.ts';
import { wordedReading, type Asking } from './asking.ts';
import { timeWords, type SettledDates } from './dates.ts';
import type { TimePlan } from './time-plan.ts';

export type SettledZone = Pick<TimeReading, 'zone' | 'doubled'>;

const utc: SettledZone = { zone: 'utc', doubled: 'refuse' };
const unasked: SettledZone = { zone: 'unasked', doubled: 'refuse' };

function isRule(answer: string): answer is ZoneRule {
  return answer === 'utc' || answer === 'station' || answer.startsWith('zone:');
}

/**
 * Settles whose clock a time field follows: the header says UTC, each cell has its offset, or there is no clock;
 * else it is asked, once for the file. Null while the question is open.
 */
export function settleZone(
  plan: TimePlan,
  dates: SettledDates | null,
  evidence: FileEvidence,
  zonedStations: number,
  asking: Asking
): SettledZone | null {
  const column = plan.clockColumn ?? plan.column;
  const time = evidence.columns[column]?.time;
  const bare = (time?.bareClock ?? 0) + (time?.serial ?? 0);
  const headers = [plan.clockColumn, plan.column].flatMap((at) => {
    const sight = at === null ? undefined : evidence.sights[at];
    return sight === undefined ? [] : [sight.header, sight.unit];
  });
  const stated = headers.map(headerZone).find((zone) => zone !== null) ?? null;
  if (stated === 'utc' && asking.given('zone') === null) return utc;
  if (bare === 0) return unasked;
  const answer = ask(column, dates, evidence, zonedStations, stated, bare, asking);
  if (answer === null || !isRule(answer)) return null;
  return {
    zone: answer,
    doubled: answer === 'utc' ? 'refuse' : doubledOf(askDoubled(column, evidence, asking))
  };
}

/** Which of two instants a doubled hour means; until someone says, such records are refused. */
function askDoubled(column: number, evidence: FileEvidence, asking: Asking): string | null {
  return asking.ask({
    id: 'doubledHour',
    kind: 'doubledHour',
    column,
    about: evidence.sights[column]?.header ?? '',
    count: 0,
    readings: (['refuse', 'earlier', 'later'] as const).map((id) => wordedReading(id)),
    byDefault: 'refuse'
  });
}

function doubledOf(answer: string | null): SettledZone['doubled'] {
  return answer === 'earlier' || answer === 'later' ? answer : 'refuse';
}

function ask(
  column: number,
  dates: SettledDates | null,
  evidence: FileEvidence,
  zonedStations: number,
  stated: 'utc' | 'local' | null,
  count: number,
  asking: Asking
): string | null {
  const cells = evidence.columns[column]?.time?.samples ?? [];
  const samples = (suffix: string) =>
    cells.map(({ line, text }) => {
      const words = dates === null ? text : timeWords(text, dates.order, dates.serial);
      return { line, text, reading: `${words} ${suffix}` };
    });
  const readings: Reading[] = [];
  if (stated !== 'local') readings.push({ id: 'utc', words: 'UTC', samples: samples('UTC') });
  readings.push({
    id: 'station',
    words: `local time of each station, by the ${zonedStations} time zones entered for stations`,
    samples: samples('local time')
  });
  return asking.ask({
    id: 'zone',
    kind: 'zone',
    column,
    about: evidence.sights[column]?.header ?? '',
    count,
    readings,
    other: 'zone'
  });
}
