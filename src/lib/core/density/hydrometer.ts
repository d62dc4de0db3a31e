/** Cubical expansion of hydrometer glass about 15 C, linear and quadratic term. API Standard 2540, Table 53B. */
export const glassExpansion = { linearPerC: 0.000023, quadraticPerC2: 0.00000002 } as const;

/**
 * The density a glass hydrometer graduated for 15 C truly shows at a temperature, kg/m3. The printed Table 53B
 * holds this correction, the standard of 2004 does not; a digital densitometer needs none.
 *
 * Example: `hydrometerCorrected(792.5, 27)` is 792.279.
 */
export function hydrometerCorrected(readingKgM3: number, temperatureC: number): number {
  const difference = temperatureC - 15;
  return (
    readingKgM3 *
    (1 - glassExpansion.linearPerC * difference - glassExpansion.quadraticPerC2 * difference * difference)
  );
}
