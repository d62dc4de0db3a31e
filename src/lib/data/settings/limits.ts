import type { LimitBase } from '#lib/core/reconciliation/index.ts';

export type { LimitBase };

/** How wide the limit is: outside when |d| is above the greater of the floor and the percentage of the base. */
export interface LimitWidth {
  readonly percent: number;
  /** A floor in kg; where it is null the floor is `floorGaugeSteps` steps of the type's gauge. */
  readonly floorKg: number | null;
  readonly floorGaugeSteps: number;
}

/** A width that holds for one type, one station, or one type at one station (null stands for any). */
export interface LimitException {
  readonly type: string | null;
  readonly station: string | null;
  readonly width: LimitWidth;
}

/** One revision of a set of limits. Sets are never edited in place: a change is a new revision with its reason. */
export interface LimitSet {
  readonly id: string;
  readonly name: string;
  readonly revision: number;
  /** First and last instant it holds for, ms UTC; null is open. */
  readonly fromMs: number | null;
  readonly untilMs: number | null;
  readonly reason: string;
  /** False until a person says that these are the operator's limits. */
  readonly confirmed: boolean;
  readonly base: LimitBase;
  readonly width: LimitWidth;
  readonly exceptions: readonly LimitException[];
  /** Departure against ordered fuel, kg. Common practice, no source: 100 kg. */
  readonly orderedKg: number;
  /** Density at 15 °C against the certificate, kg/m³. Secondary source (the JIG text was not read): 3.0. */
  readonly certificateKgM3: number;
  /** Left against right wing, kg; null: not judged. */
  readonly imbalanceKg: number | null;
}

/** Floor where the type of the aircraft, and so its gauge step, is unknown. */
export const floorUnknownTypeKg = 100;

/** Limits to start from until the operator's own are entered; no authority's number is meant by them. */
export const exampleLimits: LimitSet = {
  id: 'example',
  name: 'Example: 3 % of metered mass, floor five gauge steps',
  revision: 1,
  fromMs: null,
  untilMs: null,
  reason: 'Example to start from',
  confirmed: false,
  base: 'meteredMass',
  width: { percent: 3, floorKg: null, floorGaugeSteps: 5 },
  exceptions: [],
  orderedKg: 100,
  certificateKgM3: 3,
  imbalanceKg: null
};

/** CASA CAO 20.2 Issue 7 (8 December 2004) section 6: not more than 3 % of the higher amount. Superseded. */
export const higherAmountLimits: LimitSet = {
  ...exampleLimits,
  id: 'higher-amount',
  name: '3 % of the higher amount (CAO 20.2 Issue 7, 2004, superseded)',
  base: 'higherOfExpectedAndIndicated',
  width: { percent: 3, floorKg: 0, floorGaugeSteps: 0 }
};

/** The revision that holds at an instant: the latest of those whose dates cover it. */
export function limitsAt(sets: readonly LimitSet[], timeMs: number): LimitSet | null {
  let found: LimitSet | null = null;
  for (const set of sets) {
    const covers = (set.fromMs ?? -Infinity) <= timeMs && timeMs <= (set.untilMs ?? Infinity);
    if (covers && (found === null || (set.fromMs ?? -Infinity) >= (found.fromMs ?? -Infinity))) found = set;
  }
  return found;
}

/** The width for a type and station: the exception that names most of the two, else the set's own. */
export function widthFor(set: LimitSet, type: string, station: string): LimitWidth {
  let best = set.width;
  let bestNamed = 0;
  for (const exception of set.exceptions) {
    const fits =
      (exception.type === null || exception.type === type) &&
      (exception.station === null || exception.station === station);
    const named = Number(exception.type !== null) + Number(exception.station !== null);
    if (fits && named > bestNamed) {
      best = exception.width;
      bestNamed = named;
    }
  }
  return best;
}
