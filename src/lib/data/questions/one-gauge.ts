import { median, moments, runSteps, type OffsetOrScale, type Steps } from '#lib/core/statistics/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { byLevel, lineOf } from './offsets.ts';
import { ownDiscrepancies, type OwnDiscrepancies, type OwnSubject } from './own-discrepancy.ts';

/** Refuellings of one gauge with the fuel in a stretch: mean of its own discrepancy, kg. */
export interface LevelBand {
  readonly fromKg: number;
  readonly toKg: number;
  readonly n: number;
  readonly meanKg: number;
  readonly errorKg: number;
  /** Differs from the middle of its other levels beyond what chance gives over all bands of the page. */
  readonly differs: boolean;
}

/** One reading the discrepancy can go with: fuel on arrival, on departure, or in one tank. */
export interface LevelPanel {
  /** `arrivalFuel`, `departureFuel`, or `tanksAfter:` and the tank's name. */
  readonly of: string;
  readonly bands: readonly LevelBand[];
  readonly differing: number;
}

export interface OneGaugeAnswer {
  readonly name: string;
  readonly n: number;
  /** Metered mass and own discrepancy of each refuelling, those too wild for the line among them, kg. */
  readonly massKg: Float64Array;
  readonly ownKg: Float64Array;
  readonly line: OffsetOrScale | null;
  /** Empty for a vehicle: fuel on board is no affair of its meter. */
  readonly levels: readonly LevelPanel[];
}

/** About so many bands over the range of a reading. */
const bandsWanted = 10;
/** Refuellings from which a band is held against the others. */
export const fewestInBand = 30;
/** Bands large enough that there must be beside it. */
const fewestOthers = 2;
/** A band differs from this many standard errors on: 0.06 % by chance, of some tens of bands on the page. */
const bandClearFrom = 3.4;

/** Standard error of a median over that of a mean, normal distribution: sqrt(pi / 2). */
const medianToMean = Math.sqrt(Math.PI / 2);

/** A round width, 1, 2 or 5 times a power of ten, that cuts a range in about so many. */
function roundWidth(range: number): number {
  const rough = range / bandsWanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  return ([1, 2, 5].find((step) => step * power >= rough) ?? 10) * power;
}

type Band = Omit<LevelBand, 'differs'>;

function bandsOf(readingKg: readonly number[], valueKg: readonly number[]): LevelBand[] {
  const present = readingKg.filter(Number.isFinite);
  const most = present.reduce((a, b) => Math.max(a, b), -Infinity);
  const least = present.reduce((a, b) => Math.min(a, b), Infinity);
  if (!(most > least)) return [];
  const width = roundWidth(most - least);
  const values = new Map<number, number[]>();
  readingKg.forEach((reading, i) => {
    if (!Number.isFinite(reading)) return;
    const index = Math.floor(reading / width);
    const band = values.get(index);
    if (band === undefined) values.set(index, [valueKg[i] ?? NaN]);
    else band.push(valueKg[i] ?? NaN);
  });
  const bands = [...values]
    .sort(([p], [q]) => p - q)
    .map(([index, own]): Band => {
      const { n, mean, standardDeviation } = moments(own);
      const fromKg = index * width;
      return { fromKg, toKg: fromKg + width, n, meanKg: mean, errorKg: standardDeviation / Math.sqrt(n) };
    });
  return bands.map((band) => ({ ...band, differs: differs(band, bands) }));
}

/** Whether a band is off the middle one of the others: a second band that is off does not drag the middle along. */
function differs(band: Band, all: readonly Band[]): boolean {
  const others = all.filter((each) => each !== band && each.n >= fewestInBand);
  if (band.n < fewestInBand || others.length < fewestOthers) return false;
  const middle = median(others.map(({ meanKg }) => meanKg));
  const middleError =
    (medianToMean * median(others.map(({ errorKg }) => errorKg))) / Math.sqrt(others.length);
  return Math.abs(band.meanKg - middle) > bandClearFrom * Math.hypot(band.errorKg, middleError);
}

function levelsOf(
  context: QuestionContext,
  own: OwnDiscrepancies,
  positions: readonly number[]
): LevelPanel[] {
  const { columns } = context.ledger.source;
  const tanks = columns.keys().filter((key) => key.startsWith('tanksAfter:'));
  const valueKg = positions.map((k) => own.ownKg[k] ?? NaN);
  return ['departureFuel', 'arrivalFuel', ...tanks].flatMap((of): LevelPanel[] => {
    const readings = columns.valuesOf(of);
    const bands = bandsOf(
      positions.map((k) => readings[own.records.rows[k] ?? -1] ?? NaN),
      valueKg
    );
    if (bands.every(({ n }) => n < fewestInBand)) return [];
    return [{ of, bands, differing: bands.filter(({ differs }) => differs).length }];
  });
}

/** One gauge or meter closely: its discrepancy against the uplift, and against the fuel on board. */
export function oneGauge(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly subject: OwnSubject; readonly name: string }
): OneGaugeAnswer | null {
  return runSteps(oneGaugeSteps(context, asked));
}

/** The same in steps. */
export function* oneGaugeSteps(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly subject: OwnSubject; readonly name: string }
): Steps<OneGaugeAnswer | null> {
  const own = yield* ownDiscrepancies(context, asked.filter, asked.subject);
  if (own === null) return null;
  const level = context.ledger.source.columns.code(asked.subject).dictionary.texts().indexOf(asked.name);
  // A gauge that sticks may be wild at that level: suspected slips are out, all else is in.
  const positions = (yield* byLevel(own.level)).get(level) ?? [];
  yield;
  return {
    name: asked.name,
    n: positions.length,
    massKg: Float64Array.from(positions, (k) => own.records.massKg[k] ?? NaN),
    ownKg: Float64Array.from(positions, (k) => own.ownKg[k] ?? NaN),
    line: lineOf(own, positions),
    levels: asked.subject === 'tail' ? levelsOf(context, own, positions) : []
  };
}
