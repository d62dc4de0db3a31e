export * from './factors.ts';
export { canonicalUnits, isUnitCode, unitCodes, unitOf, units } from './units.ts';
export type { Quantity, Scale, Unit, UnitCode } from './units.ts';
export { fromCanonical, toCanonical } from './convert.ts';
export { unitNamed, unitsNamed } from './names.ts';
export { densityUnitsFitting } from './recognise.ts';
