import { quantilesUnsorted, spreadInterval } from '#lib/core/statistics/index.ts';
import { rowsByCode } from '#lib/data/columns/index.ts';
import type { GroupKey, RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';
import { rateBits, ratesOf, type Rates } from './rates.ts';

/** Quantiles (type 7) of the discrepancy of one group, in per cent of metered mass, suspected slips left out. */
export interface SpreadGroup {
  readonly name: string;
  readonly n: number;
  readonly q05: number;
  readonly q25: number;
  readonly q50: number;
  readonly q75: number;
  readonly q95: number;
  /** Standard deviation with its 95 % interval; NaN limits where too few to say. */
  readonly deviation: number;
  readonly deviationLower: number;
  readonly deviationUpper: number;
  /** Single values where the group is too small for quantiles. */
  readonly values: readonly number[];
}

export interface SpreadAnswer {
  readonly by: GroupKey;
  readonly groups: readonly SpreadGroup[];
}

const fewestForQuantiles = 10;

function percentsOf({ flags, percent }: Rates, rows: Uint32Array): Float64Array {
  const found = new Float64Array(rows.length);
  let n = 0;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as number;
    if (((flags[row] as number) & rateBits.measured) !== 0) found[n++] = percent[row] as number;
  }
  return found.subarray(0, n);
}

/** How widely the discrepancy varies, per group. */
export function spread(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter; readonly by: GroupKey }
): SpreadAnswer {
  const { refuellings } = context.select(asked.filter);
  const { severalVehicles } = context.ledger.computed;
  const rows = asked.by === 'vehicle' ? refuellings.filter((row) => severalVehicles[row] !== 1) : refuellings;
  const grouping = context.group(asked.by);
  const sorted = rowsByCode(grouping.codes, grouping.count, rows);
  const rates = ratesOf(context);
  const groups: SpreadGroup[] = [];
  for (let code = 0; code < grouping.count; code++) {
    const values = percentsOf(rates, sorted.rows.subarray(sorted.starts[code], sorted.starts[code + 1]));
    if (values.length === 0) continue;
    const [q05 = NaN, q25 = NaN, q50 = NaN, q75 = NaN, q95 = NaN] = quantilesUnsorted(
      values,
      [0.05, 0.25, 0.5, 0.75, 0.95]
    );
    const { standardDeviation, lower, upper } = spreadInterval(values);
    groups.push({
      name: grouping.name(code),
      n: values.length,
      q05,
      q25,
      q50,
      q75,
      q95,
      deviation: standardDeviation,
      deviationLower: lower,
      deviationUpper: upper,
      values: values.length < fewestForQuantiles ? [...values.sort()] : []
    });
  }
  if (asked.by !== 'month' && asked.by !== 'size') groups.sort((a, b) => (a.name < b.name ? -1 : 1));
  return { by: asked.by, groups };
}
