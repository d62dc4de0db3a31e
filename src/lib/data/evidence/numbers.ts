/**
 * A finite number as the shortest plain decimal that reads back as the same double; -0 as 0. No exponent is written:
 * the digits of the shortest form are moved past the mark by hand. Throws on NaN and infinity, which have no place
 * in an export.
 */
export function plainDecimal(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`number: ${value}, need a finite one`);
  const shortest = String(value === 0 ? 0 : value);
  const exponentAt = shortest.indexOf('e');
  if (exponentAt < 0) return shortest;
  const sign = shortest.startsWith('-') ? '-' : '';
  const mantissa = shortest.slice(sign.length, exponentAt);
  const exponent = Number(shortest.slice(exponentAt + 1));
  const digits = mantissa.replace('.', '');
  const pointAt = (mantissa.indexOf('.') < 0 ? mantissa.length : mantissa.indexOf('.')) + exponent;
  if (pointAt <= 0) return `${sign}0.${'0'.repeat(-pointAt)}${digits}`;
  if (pointAt >= digits.length) return sign + digits + '0'.repeat(pointAt - digits.length);
  return `${sign}${digits.slice(0, pointAt)}.${digits.slice(pointAt)}`;
}

/** `value` rounded to `decimals` places, halves away from zero. */
export function roundHalfAway(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  const rounded = Math.floor(Math.abs(value) * scale + 0.5) / scale;
  return value < 0 && rounded !== 0 ? -rounded : rounded;
}

/** A computed value for an export: rounded half away from zero, empty where it is missing. */
export function computedCell(value: number, decimals: number): string {
  return Number.isFinite(value) ? plainDecimal(roundHalfAway(value, decimals)) : '';
}
