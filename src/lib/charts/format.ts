import { formatLocale } from 'd3';

/** A thin space for thousands and the true minus sign, in every browser the same. */
const locale = formatLocale({
  decimal: '.',
  thousands: '\u2009',
  grouping: [3],
  currency: ['', ''],
  minus: '\u2212',
  percent: '\u2009%'
});

export interface NumberForm {
  /** Digits after the point; 0 if left out. */
  decimals?: number;
  /** Writes the plus sign of a positive number. */
  signed?: boolean;
  /** The words for a missing value; "not recorded" if left out. */
  missing?: string;
}

const NOT_RECORDED = 'not recorded';

/**
 * A number as it stands on a page: fixed decimals, true minus sign, thin space for thousands.
 * A value that rounds to zero carries no sign. NaN and infinities are written as `missing`.
 *
 * @example formatNumber(-1234.5, { decimals: 1 }) // "−1 234.5", with a thin space
 */
export function formatNumber(value: number, form: NumberForm = {}): string {
  if (!Number.isFinite(value)) return form.missing ?? NOT_RECORDED;
  const decimals = form.decimals ?? 0;
  const unsigned = roundsToZero(value, decimals);
  const sign = form.signed === true && !unsigned ? '+' : '';
  return locale.format(`${sign},.${decimals}f`)(unsigned ? 0 : value);
}

/**
 * A whole count with a thin space for thousands.
 *
 * @example formatCount(60214) // "60 214"
 */
export function formatCount(value: number, missing?: string): string {
  return formatNumber(value, missing === undefined ? {} : { missing });
}

/**
 * A fraction as percent with its sign and a thin space before the percent mark.
 *
 * @param fraction 0.043 for 4.3 %
 * @example formatPercent(0.043) // "4.3 %"
 */
export function formatPercent(fraction: number, form: NumberForm = {}): string {
  if (!Number.isFinite(fraction)) return form.missing ?? NOT_RECORDED;
  return `${formatNumber(fraction * 100, { decimals: 1, ...form })}\u2009%`;
}

/**
 * A range in words, the unit once: "0.6 to 16.7 %".
 *
 * @param unit written after the second number; nothing if left out
 */
export function formatInterval(low: number, high: number, form: NumberForm & { unit?: string } = {}): string {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return form.missing ?? NOT_RECORDED;
  const unit = form.unit === undefined || form.unit === '' ? '' : `\u2009${form.unit}`;
  return `${formatNumber(low, form)} to ${formatNumber(high, form)}${unit}`;
}

/**
 * A range of fractions as percent: (0.006, 0.167) is "0.6 to 16.7 %".
 */
export function formatPercentInterval(low: number, high: number, form: NumberForm = {}): string {
  return formatInterval(low * 100, high * 100, { decimals: 1, ...form, unit: '%' });
}

/**
 * Digits after the point that a scale needs when its labels are `step` apart: 0.5 needs one, 20 none.
 */
export function decimalsOfStep(step: number): number {
  for (let decimals = 0; decimals < 9; decimals++) {
    const scaled = step * 10 ** decimals;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6) return decimals;
  }
  return 9;
}

function roundsToZero(value: number, decimals: number): boolean {
  return Number(Math.abs(value).toFixed(decimals)) === 0;
}
