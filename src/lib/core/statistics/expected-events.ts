export interface ExpectedEvents {
  /** Each unit's total and events, and the part of the total in strata that another unit has too. */
  readonly totals: Float64Array;
  readonly events: Float64Array;
  readonly shared: Float64Array;
  /** Events within the shared strata, and how many there would be at the rate of each stratum. */
  readonly observed: Float64Array;
  readonly expected: Float64Array;
}

/** Every trial of every unit, as arrays of one length. */
export interface Trials {
  /** Code of each trial's unit, below `unitCount`. */
  readonly units: ArrayLike<number>;
  readonly unitCount: number;
  /** Code of each trial's stratum, below `strataCount`. */
  readonly strata: ArrayLike<number>;
  readonly strataCount: number;
  /** 1 for an event, else 0. */
  readonly events: ArrayLike<number>;
}

const nobody = -1;
const several = -2;

/**
 * Events expected of each unit if every stratum had one rate for all: indirect standardisation, the observed over
 * expected of which compares units like for like. A stratum that one unit has to itself says nothing of that unit and
 * would only pull its ratio towards 1, so it is left out of both; what is left out is `totals` less `shared`.
 */
export function expectedEvents(trials: Trials): ExpectedEvents {
  const { units, unitCount, strata, strataCount, events } = trials;
  const count = units.length;
  const owner = new Int32Array(strataCount).fill(nobody);
  const size = new Float64Array(strataCount);
  const happened = new Float64Array(strataCount);
  for (let i = 0; i < count; i++) {
    const stratum = strata[i] as number;
    const unit = units[i] as number;
    const known = owner[stratum] as number;
    if (known === nobody) owner[stratum] = unit;
    else if (known !== unit) owner[stratum] = several;
    size[stratum] = (size[stratum] as number) + 1;
    happened[stratum] = (happened[stratum] as number) + (events[i] as number);
  }
  const zeros = () => new Float64Array(unitCount);
  const found = { totals: zeros(), events: zeros(), shared: zeros(), observed: zeros(), expected: zeros() };
  for (let i = 0; i < count; i++) {
    const unit = units[i] as number;
    const stratum = strata[i] as number;
    found.totals[unit] = (found.totals[unit] as number) + 1;
    found.events[unit] = (found.events[unit] as number) + (events[i] as number);
    if (owner[stratum] !== several) continue;
    found.shared[unit] = (found.shared[unit] as number) + 1;
    found.observed[unit] = (found.observed[unit] as number) + (events[i] as number);
    found.expected[unit] =
      (found.expected[unit] as number) + (happened[stratum] as number) / (size[stratum] as number);
  }
  return found;
}
