import { type UnitCode, unitCodes, unitOf } from './units.ts';

/**
 * Density units in which both ends of a column's range are sizes that jet fuel has. Several fit where they
 * overlap (kg/L and relative density; lb/US gal and lb/imp gal between 7.0 and 7.5): ask. None fit a column that
 * is not jet fuel in any unit or mixes units: ask or refuse, never guess.
 *
 * Ranges: trade practice, no published source.
 */
export function densityUnitsFitting(minimum: number, maximum: number): UnitCode[] {
  return unitCodes('density').filter((code) => {
    const range = unitOf(code).jetFuel;
    return range !== undefined && minimum <= maximum && minimum >= range[0] && maximum <= range[1];
  });
}
