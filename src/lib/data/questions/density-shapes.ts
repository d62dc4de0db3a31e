import { quantilesUnsorted } from '#lib/core/statistics/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** How the densities of one month lie over the bins. */
export interface MonthShape {
  /** `2031-07`. */
  readonly month: string;
  readonly n: number;
  readonly counts: readonly number[];
}

export interface DensityShapesAnswer {
  /** Edges of the bins, kg/m3 at 15 degC, one more than counts. */
  readonly edges: readonly number[];
  /** Months with a density, in order. */
  readonly months: readonly MonthShape[];
  /** Tickets with a density beyond the bins: slips, mostly. */
  readonly beyond: number;
}

const widths = [0.5, 1, 2, 5, 10, 20, 50];
const mostBins = 60;
/** The share left beyond each end, so that one slip does not stretch the scale. */
const beyondShare = 0.002;

function edgesOf(values: Float64Array): number[] {
  const [low = NaN, high = NaN] = quantilesUnsorted(values, [beyondShare, 1 - beyondShare]);
  const width = widths.find((each) => (high - low) / each <= mostBins - 2) ?? widths.at(-1) ?? 1;
  const first = Math.floor(low / width);
  const last = Math.max(first + 1, Math.floor(high / width) + 1);
  return Array.from({ length: last - first + 1 }, (_none, i) => (first + i) * width);
}

/** The densities at 15 degC month by month, counted over bins that all months share. */
export function densityShapes(
  context: QuestionContext,
  asked: { readonly filter: RecordFilter }
): DensityShapesAnswer {
  const { rows } = context.select(asked.filter);
  const months = context.group('month');
  const column = context.ledger.computed.density15KgM3;
  const present = rows.filter((row) => !Number.isNaN(column[row] ?? NaN));
  if (present.length === 0) return { edges: [], months: [], beyond: 0 };
  const edges = edgesOf(Float64Array.from(present, (row) => column[row] ?? NaN));
  const bins = edges.length - 1;
  const [first = NaN, second = NaN] = edges;
  const counts = new Uint32Array(months.count * bins);
  let beyond = 0;
  for (const row of present) {
    const bin = Math.floor(((column[row] ?? NaN) - first) / (second - first));
    if (bin < 0 || bin >= bins) {
      beyond++;
      continue;
    }
    const place = (months.codes[row] ?? 0) * bins + bin;
    counts[place] = (counts[place] ?? 0) + 1;
  }
  const shapes = Array.from({ length: months.count }, (_none, code): MonthShape => {
    const own = [...counts.subarray(code * bins, (code + 1) * bins)];
    return { month: months.name(code), n: own.reduce((sum, count) => sum + count, 0), counts: own };
  });
  return { edges, months: shapes.filter(({ n, month }) => n > 0 && month !== ''), beyond };
}
