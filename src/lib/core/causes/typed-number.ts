const powersOfTen: readonly number[] = [1, 10, 100, 1000, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12];

export const powerOfTen = (exponent: number): number => powersOfTen[exponent] ?? 10 ** exponent;

/** Decimals with which a number was typed, as far as its value shows; three at most. */
export function decimalsOf(value: number): number {
  for (let decimals = 0; decimals < 3; decimals++) {
    const scaled = value * powerOfTen(decimals);
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6 * Math.max(1, scaled)) return decimals;
  }
  return 3;
}

/** Variance of the logarithm of a typed number from the rounding of its last digit; 0 for a missing one. */
export function typingVariance(value: number): number {
  if (!(value > 0)) return 0;
  const step = 1 / powerOfTen(decimalsOf(value)) / value;
  return (step * step) / 12;
}

/** The digits of a number as a whole one: its last typed digit counts 1. */
export function wholeOf(value: number): number {
  return Math.round(value * powerOfTen(decimalsOf(value)));
}

export function digitCount(whole: number): number {
  let count = 1;
  while (count < powersOfTen.length && whole >= powerOfTen(count)) count++;
  return count;
}

export const digitAt = (whole: number, place: number): number => Math.floor(whole / powerOfTen(place)) % 10;
