export * from './factors.ts';
export { canonicalUnits } from './unit.ts';
export type { Quantity, Scale, Unit } from './unit.ts';
export { isUnitCode, unitCodes, unitOf, units } from './units.ts';
export type { UnitCode } from './units.ts';
export { fromCanonical, toCanonical } from './convert.ts';
export { unitNamed, unitsNamed } from './names.ts';
export { densityUnitsFitting } from './recognise.ts';
