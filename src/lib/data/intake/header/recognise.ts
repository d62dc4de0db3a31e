import { unitsNamed, type Quantity, type UnitCode } from '#lib/core/units/index.ts';
import { fieldNamed, splitKey, type ColumnKey, type FieldDefinition } from '#lib/data/record/index.ts';
import { isNumberColumn, isTimeColumn, unitColumnQuantity, type ContentCounts } from './content.ts';
import { matchHeader, matchMisfit, unitAtEnd, type HeaderMatch } from './match.ts';
import { headerWordsOf } from './text.ts';

/** What one column of a file is taken for. */
export interface ColumnRole {
  readonly column: number;
  readonly key: ColumnKey;
  readonly part: 'whole' | 'date' | 'clock';
  readonly exact: boolean;
  /** A person said so. */
  readonly isChosen: boolean;
  /** Units that the header or the row of units names. */
  readonly units: readonly UnitCode[];
  /** Column that names the unit record by record. */
  readonly unitColumn: number | null;
}

/** A doubt about the header that only a person can settle. */
export type FieldDoubt =
  | { readonly kind: 'field'; readonly key: ColumnKey; readonly columns: readonly number[] }
  | { readonly kind: 'column'; readonly column: number; readonly keys: readonly ColumnKey[] };

export interface Recognition {
  readonly roles: readonly ColumnRole[];
  /** Columns that name units, by the quantity. */
  readonly unitColumns: ReadonlyMap<number, Quantity>;
  readonly doubts: readonly FieldDoubt[];
  /** Columns of number fields in a unit of another quantity. */
  readonly misfits: readonly { readonly column: number; readonly key: ColumnKey }[];
}

/** A column as recognition sees it. */
export interface ColumnSight {
  readonly header: string;
  /** Text of the row of units, empty without one. */
  readonly unit: string;
  readonly content: ContentCounts;
}

interface Claim extends HeaderMatch {
  readonly column: number;
}

function fieldOf(key: ColumnKey): FieldDefinition {
  return fieldNamed(splitKey(key).name);
}

function fitsContent(key: ColumnKey, content: ContentCounts): boolean {
  const { kind } = fieldOf(key);
  if (kind === 'number') return isNumberColumn(content);
  return kind !== 'time' || isTimeColumn(content);
}

/** Adds what the row of units says; null where it names a unit of another quantity. */
function withUnitsRow(match: HeaderMatch, unit: string): HeaderMatch | null {
  const field = fieldOf(match.key);
  if (unit === '' || field.kind !== 'number' || match.units.length > 0) return match;
  const units = unitsNamed(field.quantity, unit);
  return units.length === 0 ? null : { ...match, units };
}

function claimsOf(sights: readonly ColumnSight[], unitColumns: ReadonlyMap<number, Quantity>): Claim[] {
  const claims: Claim[] = [];
  sights.forEach((sight, column) => {
    if (unitColumns.has(column)) return;
    for (const match of matchHeader(sight.header)) {
      if (!fitsContent(match.key, sight.content)) continue;
      const claim = withUnitsRow(match, sight.unit);
      if (claim !== null) claims.push({ ...claim, column });
    }
  });
  return claims.sort((a, b) => b.score - a.score || a.column - b.column);
}

/**
 * Which column is which field, by header and content. `chosen` holds what a person said, by column: a key, or null
 * for none. A field that two columns claim alike, or a column that two fields claim alike, is a doubt.
 */
export function recognise(
  sights: readonly ColumnSight[],
  chosen: ReadonlyMap<number, ColumnKey | null>
): Recognition {
  const unitColumns = findUnitColumns(sights, chosen);
  const claims = claimsOf(sights, unitColumns).filter(({ column }) => !chosen.has(column));
  const roles: ColumnRole[] = [];
  const doubts: FieldDoubt[] = [];
  const takenColumns = new Set<number>();
  const takenKeys = new Set<ColumnKey>();
  for (const [column, key] of chosen) {
    const sight = sights[column];
    if (key === null || sight === undefined) continue;
    takenColumns.add(column);
    if (fieldOf(key).kind !== 'time') takenKeys.add(key);
    const unitless: HeaderMatch = { key, score: 0, exact: true, units: chosenUnits(key, sight) };
    roles.push({ ...roleOf({ ...unitless, column }, sight), isChosen: true });
  }
  for (const claim of claims) {
    const sight = sights[claim.column];
    if (sight === undefined || takenColumns.has(claim.column) || takenKeys.has(claim.key)) continue;
    const isTime = fieldOf(claim.key).kind === 'time';
    if (isTime) {
      takenColumns.add(claim.column);
      roles.push(roleOf(claim, sight));
      continue;
    }
    const open = claims.filter((other) => !takenColumns.has(other.column) && !takenKeys.has(other.key));
    const rivals = open.filter((other) => other.key === claim.key && isRival(other, claim, open, sights));
    const meanings = open.filter((other) => other.column === claim.column && other.score === claim.score);
    if (rivals.length > 1) {
      doubts.push({ kind: 'field', key: claim.key, columns: rivals.map(({ column }) => column) });
      takenKeys.add(claim.key);
      for (const { column } of rivals) takenColumns.add(column);
    } else if (meanings.length > 1) {
      doubts.push({ kind: 'column', column: claim.column, keys: meanings.map(({ key }) => key) });
      takenColumns.add(claim.column);
    } else {
      takenColumns.add(claim.column);
      takenKeys.add(claim.key);
      roles.push(roleOf(claim, sight));
    }
  }
  const misfits = sights.flatMap(({ header }, column) => {
    const key = takenColumns.has(column) || chosen.has(column) ? null : matchMisfit(header);
    return key === null ? [] : [{ column, key }];
  });
  return { roles: withUnitColumns(roles, sights, unitColumns), unitColumns, doubts, misfits };
}

/**
 * True where a column heads a field as well as the best one does: alike, or in other words that are wholly the field's,
 * when it holds something and heads nothing else that is free.
 */
function isRival(other: Claim, best: Claim, open: readonly Claim[], sights: readonly ColumnSight[]): boolean {
  if (other.score === best.score) return true;
  const isFilled = (sights[other.column]?.content.filled ?? 0) > 0;
  if (!other.exact || !best.exact || !isFilled) return false;
  return !open.some(({ column, key }) => column === other.column && key !== other.key);
}

/** Units that the header of a column names for a field that a person chose for it. */
function chosenUnits(key: ColumnKey, sight: ColumnSight): readonly UnitCode[] {
  const field = fieldOf(key);
  if (field.kind !== 'number') return [];
  const named = unitsNamed(field.quantity, sight.unit);
  if (named.length > 0) return named;
  return unitAtEnd(field.quantity, headerWordsOf(sight.header)).units;
}

function roleOf(claim: Claim, sight: ColumnSight): ColumnRole {
  const { dates, clocks, instants } = sight.content;
  const isTime = fieldOf(claim.key).kind === 'time';
  const part = !isTime || instants >= Math.max(dates, clocks) ? 'whole' : clocks > dates ? 'clock' : 'date';
  return {
    column: claim.column,
    key: claim.key,
    part,
    exact: claim.exact,
    isChosen: false,
    units: claim.units,
    unitColumn: null
  };
}

const unitHeaderWords = new Set([
  'unit',
  'units',
  'uom',
  'unite',
  'einheit',
  'einh',
  'unidad',
  'unidade',
  'unita',
  'um'
]);

function findUnitColumns(
  sights: readonly ColumnSight[],
  chosen: ReadonlyMap<number, ColumnKey | null>
): Map<number, Quantity> {
  const found = new Map<number, Quantity>();
  sights.forEach((sight, column) => {
    if (chosen.get(column) != null) return;
    const isHeaded = headerWordsOf(sight.header).some((word) => unitHeaderWords.has(word));
    const quantity = unitColumnQuantity(sight.content, isHeaded);
    if (quantity !== null && (isHeaded || matchHeader(sight.header).length === 0))
      found.set(column, quantity);
  });
  return found;
}

/** Ties each column of units to the number column left of it that names no unit itself. */
function withUnitColumns(
  roles: readonly ColumnRole[],
  sights: readonly ColumnSight[],
  unitColumns: ReadonlyMap<number, Quantity>
): ColumnRole[] {
  const unitOf = new Map<number, number>();
  for (const [unitColumn] of unitColumns) {
    let owner: ColumnRole | null = null;
    for (const role of roles) {
      const field = fieldOf(role.key);
      if (role.column > unitColumn || role.units.length > 0 || field.kind !== 'number') continue;
      const names = sights[unitColumn]?.content.units.get(field.quantity) ?? 0;
      if (names > 0 && role.column > (owner?.column ?? -1)) owner = role;
    }
    if (owner !== null) unitOf.set(owner.column, unitColumn);
  }
  return roles.map((role) => ({ ...role, unitColumn: unitOf.get(role.column) ?? role.unitColumn }));
}
