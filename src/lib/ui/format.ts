// Numbers are written the same on an axis and in a table, and a chart may not import from here: so the rules live with charts.
export {
  formatCount,
  formatInterval,
  formatNumber,
  formatPercent,
  formatPercentInterval
} from '#lib/charts/format.ts';
export type { NumberForm } from '#lib/charts/format.ts';
