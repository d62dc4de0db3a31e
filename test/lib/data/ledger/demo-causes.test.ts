import { beforeAll, describe, expect, it } from 'vitest';
import { causeCodes, causeOutcomes, type CauseCode } from '#lib/core/causes/index.ts';
import { demoTruth } from '#lib/demo/index.ts';
import type { QuestionContext } from '#lib/data/questions/index.ts';
import { demoContext } from '../questions/demo-world.ts';

/** The cause that should be found of what was planted; what is not here leaves nothing for a cause to say. */
const causeOfKind: Readonly<Record<string, CauseCode>> = {
  'arrival-copied': 'staleArrival',
  'before-after-swapped': 'gaugeReadingsSwapped',
  'decimal-shift': 'decimalShift',
  'defuel-sign': 'defuelSign',
  'density-unit': 'densityUnit',
  'digits-transposed': 'transposedDigits',
  'fahrenheit-as-celsius': 'fahrenheitAsCelsius',
  'imperial-gallons-as-litres': 'imperialGallonsAsLitres',
  'meter-not-reset': 'meterNotReset',
  'planned-as-gauge': 'plannedAsGauge',
  'pounds-as-kilograms': 'poundsAsKilograms',
  'single-digit': 'singleDigit',
  'ticket-missing': 'ticketMissing',
  'us-gallons-as-litres': 'usGallonsAsLitres',
  'wrong-tail': 'wrongTail'
};

/** Habits of a whole station, not looked for in a record that holds no slip; where one does, either name is right. */
const habitOfKind: Readonly<Record<string, CauseCode>> = {
  'default-density': 'defaultDensity',
  'density-at-15-as-observed': 'density15AsObserved'
};

const columns = [
  'planted',
  'right',
  'wrong',
  'cannotTell',
  'unknown',
  'nothingWrong',
  'notLookedAt'
] as const;
type Tally = Record<(typeof columns)[number], number>;
const emptyTally = (): Tally => ({
  planted: 0,
  right: 0,
  wrong: 0,
  cannotTell: 0,
  unknown: 0,
  nothingWrong: 0,
  notLookedAt: 0
});

/** What was planted in each record, by file and line; a record can hold a slip and a story's density habit. */
function kindsByLine(): Map<string, string[]> {
  const kinds = new Map<string, string[]>();
  for (const { file, line, kind } of demoTruth().records) {
    const key = `${file}:${line}`;
    kinds.set(key, [...(kinds.get(key) ?? []), kind]);
  }
  return kinds;
}

/** Counts every refuelling under the kind planted in it, or under "nothing planted" where a cause was named. */
function confusion({ ledger }: QuestionContext): { table: Map<string, Tally>; wrong: string[] } {
  const kinds = kindsByLine();
  const table = new Map<string, Tally>();
  const wrong: string[] = [];
  const tallyOf = (kind: string): Tally => {
    const known = table.get(kind) ?? emptyTally();
    table.set(kind, known);
    return known;
  };
  for (let row = 0; row < ledger.rowCount; row++) {
    if (ledger.isSetAside(row) || ledger.computed.leader[row] !== row) continue;
    const where = `${ledger.source.fileOf(row).name}:${ledger.source.addressOf(row).line}`;
    const all = kinds.get(where) ?? [];
    const planted = all.filter((kind) => causeOfKind[kind] !== undefined);
    const outcome = causeOutcomes[(ledger.causes.outcome[row] ?? 0) - 1] ?? 'notLookedAt';
    if (planted.length === 0 && outcome === 'notLookedAt') continue;
    const tally = tallyOf(planted[0] ?? 'nothing planted');
    tally.planted++;
    if (outcome !== 'named') {
      tally[outcome]++;
      continue;
    }
    const cause = causeCodes[(ledger.causes.cause[row] ?? 0) - 1];
    const isHabit = planted.length > 0 && all.some((kind) => habitOfKind[kind] === cause);
    if (isHabit || planted.some((kind) => causeOfKind[kind] === cause)) tally.right++;
    else {
      tally.wrong++;
      wrong.push(`${where}: ${planted.join(' and ') || 'nothing planted'} named ${String(cause)}`);
    }
  }
  return { table, wrong };
}

function printed(table: ReadonlyMap<string, Tally>): string {
  const line = (name: string, cells: readonly (number | string)[]) =>
    name.padEnd(28) + cells.map((cell) => String(cell).padStart(13)).join('');
  const rows = [...table]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([kind, tally]) =>
      line(
        kind,
        columns.map((column) => tally[column])
      )
    );
  return [line('refuellings of the demo', columns), ...rows].join('\n');
}

describe('causes named in the demo, against what was planted', () => {
  let table: Map<string, Tally>;
  const sum = (column: keyof Tally) => [...table.values()].reduce((total, tally) => total + tally[column], 0);

  beforeAll(async () => {
    const found = confusion(await demoContext());
    table = found.table;
    console.log(`${printed(table)}\nnamed wrong:\n${found.wrong.join('\n')}`);
  }, 60_000);

  it('are wrong in at most 2 % of all named', () => {
    expect(sum('right')).toBeGreaterThan(380);
    expect(sum('wrong') / (sum('right') + sum('wrong'))).toBeLessThanOrEqual(0.02);
  });

  it('are never named where nothing was planted', () => {
    const clean = table.get('nothing planted') ?? emptyTally();
    expect(clean.right + clean.wrong).toBe(0);
  });

  it.each([
    ['us-gallons-as-litres', 0.95],
    ['imperial-gallons-as-litres', 0.9],
    ['pounds-as-kilograms', 0.95],
    ['decimal-shift', 0.95],
    ['meter-not-reset', 0.9],
    ['fahrenheit-as-celsius', 0.9],
    ['arrival-copied', 0.95]
  ])('are right for %s in at least this share of those looked at: %s', (kind, share) => {
    const tally = table.get(kind) ?? emptyTally();
    expect(tally.right / (tally.planted - tally.notLookedAt)).toBeGreaterThanOrEqual(share);
  });
});
