import { type UnitCode, unitOf } from './units.ts';

/**
 * A value in the named unit, in the canonical unit of its quantity (L, kg, kg/m3, degC, pS/m, min, mg/L, ppm,
 * kPa). Relative density 60/60 F and degrees API give the density at 60 F, not at 15 C: `core/density` does the
 * rest. NaN stays NaN; a value below -131.5 degrees API, where the scale has no density, gives NaN.
 *
 * Example: `toCanonical('usGallon', 1)` is 3.785411784.
 */
export function toCanonical(code: UnitCode, value: number): number {
  const { scale } = unitOf(code);
  if (scale.kind === 'linear') return ((value - scale.zero) * scale.times) / scale.per;
  const divisor = value + scale.offset;
  return divisor > 0 ? scale.times / divisor : NaN;
}

/**
 * A canonical value in the named unit: the inverse of `toCanonical`, within 1e-9 relative.
 *
 * Example: `fromCanonical('pound', 0.45359237)` is 1.
 */
export function fromCanonical(code: UnitCode, value: number): number {
  const { scale } = unitOf(code);
  if (scale.kind === 'linear') return (value * scale.per) / scale.times + scale.zero;
  return value > 0 ? scale.times / value - scale.offset : NaN;
}
