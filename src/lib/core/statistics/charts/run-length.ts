import { normalCdf, normalDensity } from '../distributions.ts';
import { solveLinear } from '../linear-solve.ts';
import { gaussLegendre } from '../quadrature.ts';

const NODES = 60;

/**
 * Mean number of periods until a two-sided EWMA with fixed limits signals, started at its centre, for a lasting
 * shift in standard deviations of the values (integral equation of Crowder 1987, Technometrics 29:401).
 */
export function ewmaRunLength(weight: number, limit: number, shift = 0): number {
  const edge = limit * Math.sqrt(weight / (2 - weight));
  const { nodes, weights } = gaussLegendre(NODES, -edge, edge);
  const kernel = (from: number, to: number): number =>
    normalDensity((to - (1 - weight) * from) / weight - shift) / weight;
  const rows = Array.from(nodes, (from, i) =>
    nodes.map((to, j) => (i === j ? 1 : 0) - (weights[j] ?? NaN) * kernel(from, to))
  );
  const lengths = solveLinear(rows, new Float64Array(NODES).fill(1));
  return lengths.reduce(
    (sum, length, j) => sum + (weights[j] ?? NaN) * kernel(0, nodes[j] ?? NaN) * length,
    1
  );
}

/** The same for one side of a cumulative sum started at 0, slack and limit in standard deviations. */
function oneSidedCusumRunLength(slack: number, limit: number, shift: number): number {
  const { nodes, weights } = gaussLegendre(NODES, 0, limit);
  const states = [0, ...nodes];
  const moved = shift - slack;
  const rows = states.map((from, i) =>
    Float64Array.from(states, (to, j) => {
      const chance =
        j === 0 ? normalCdf(-from - moved) : (weights[j - 1] ?? NaN) * normalDensity(to - from - moved);
      return (i === j ? 1 : 0) - chance;
    })
  );
  return solveLinear(rows, new Float64Array(states.length).fill(1))[0] ?? NaN;
}

/**
 * Mean number of periods until a two-sided cumulative sum signals, started at 0; slack, limit and shift in standard
 * deviations of the values (both sides joined as by Lucas & Crosier 1982, Technometrics 24:199).
 */
export function cusumRunLength(slack: number, limit: number, shift = 0): number {
  const up = oneSidedCusumRunLength(slack, limit, shift);
  const down = oneSidedCusumRunLength(slack, limit, -shift);
  return 1 / (1 / up + 1 / down);
}

/** Siegmund's closed form for one side of a cumulative sum (1985); within a few percent. */
export function siegmundRunLength(slack: number, limit: number, shift = 0): number {
  const drift = shift - slack;
  const reach = limit + 1.166;
  if (Math.abs(drift) < 1e-9) return reach * reach;
  return (Math.expm1(-2 * drift * reach) + 2 * drift * reach) / (2 * drift * drift);
}

/**
 * The limit at which a growing run length reaches the one wanted: false position on logarithms, halving the weight of
 * an end that stays (Illinois rule).
 */
function limitFor(wanted: number, runLength: (limit: number) => number, low: number, high: number): number {
  const excess = (limit: number): number => Math.log(runLength(limit) / wanted);
  let [below, above] = [low, high];
  let [atBelow, atAbove] = [excess(below), excess(above)];
  if (!(atBelow < 0 && atAbove > 0)) {
    const [least, most] = [Math.ceil(wanted * Math.exp(atBelow)), Math.floor(wanted * Math.exp(atAbove))];
    throw new RangeError(`run length: ${wanted}, need ${least} to ${most}`);
  }
  for (let step = 0; step < 60; step += 1) {
    const limit = below - (atBelow * (above - below)) / (atAbove - atBelow);
    const at = excess(limit);
    if (Math.abs(at) < 1e-10) return limit;
    if (at < 0) [below, atBelow, atAbove] = [limit, at, atAbove / 2];
    else [above, atAbove, atBelow] = [limit, at, atBelow / 2];
  }
  return (below + above) / 2;
}

/** Limits found before: each costs as much as all else a chart does, and pages ask for the same few. */
const knownLimits = new Map<string, number>();

/** Limit L of an EWMA, in its own standard deviations, whose false alarms are this many periods apart on average. */
export function ewmaLimitFor(weight: number, runLength: number): number {
  const key = `${weight} ${runLength}`;
  const known = knownLimits.get(key);
  if (known !== undefined) return known;
  const limit = limitFor(runLength, (each) => ewmaRunLength(weight, each), 0.5, 5);
  knownLimits.set(key, limit);
  return limit;
}

/** Decision limit h of a two-sided cumulative sum, in standard deviations of the values, for a false-alarm distance. */
export function cusumLimitFor(slack: number, runLength: number): number {
  return limitFor(runLength, (limit) => cusumRunLength(slack, limit), 0.2, 12);
}

/**
 * The distance between false alarms, in periods, that gives so many a year over all series watched: series x checks
 * a year / false alarms accepted.
 */
export function runLengthForBudget(series: number, checksAYear: number, falseAlarmsAYear: number): number {
  if (!(falseAlarmsAYear > 0)) throw new RangeError(`false alarms: ${falseAlarmsAYear}, need more than 0`);
  return (series * checksAYear) / falseAlarmsAYear;
}
