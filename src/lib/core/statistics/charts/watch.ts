import { normalTwoSided } from '../distributions.ts';
import { benjaminiHochberg } from '../multiplicity.ts';

/**
 * Watching many series at once: in each period the p values of the z scores of all series not yet alarmed go through
 * Benjamini-Hochberg at q. An alarmed series leaves the family, else the lasting alarms would raise the threshold
 * for the rest. Returns the period of each series' alarm, -1 for none.
 *
 * @param zScores one row a period, one value a series, standard normal while nothing changed; NaN = no value yet.
 * @param alarmed series known to be alarmed before the first period.
 */
export function watchAlarms(
  zScores: readonly ArrayLike<number>[],
  q: number,
  alarmed: ReadonlySet<number> = new Set()
): Int32Array {
  const count = zScores[0]?.length ?? 0;
  const alarm = new Int32Array(count).fill(-1);
  zScores.forEach((row, period) => {
    const pValues = Float64Array.from(row, (z, series) =>
      alarmed.has(series) || alarm[series] !== -1 ? NaN : normalTwoSided(z)
    );
    const { adjusted } = benjaminiHochberg(pValues, q);
    adjusted.forEach((p, series) => {
      if (p <= q) alarm[series] = period;
    });
  });
  return alarm;
}
