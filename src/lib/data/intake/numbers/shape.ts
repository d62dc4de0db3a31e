import { scanNumber } from '../tokenise/scan-number.ts';
import type { NumberMarks } from '../tokeniser.ts';

/**
 * What a cell alone says about the decimal mark of its column. `plain`: digits without a mark, or with blanks or
 * apostrophes between groups. `dot` and `comma`: only that decimal mark fits. `either`: both fit, as in 1.234, and the
 * numbers differ a thousandfold.
 */
export type NumberShape = 'plain' | 'dot' | 'comma' | 'either' | 'bad';

const otherGroups: readonly string[] = [' ', "'"];

/** The mark between the groups of a text, other than dot and comma: a blank, an apostrophe or none. */
function neutralGroup(text: string): string | null {
  for (let i = 1; i < text.length - 1; i++) {
    const unit = text.charCodeAt(i);
    if (unit === 0x27 || unit === 0x2019) return "'";
    if (unit === 0x20 || unit === 0xa0 || unit === 0x202f || unit === 0x2009) return ' ';
  }
  return null;
}

/** The marks that a text fits with this decimal mark, null where it fits none. */
export function marksFitting(text: string, decimal: '.' | ','): NumberMarks | null {
  const trimmed = text.trim();
  const other = decimal === '.' ? ',' : '.';
  const neutral = neutralGroup(trimmed);
  const group = neutral ?? (trimmed.includes(other) ? other : null);
  const marks: NumberMarks = { decimal, group };
  return Number.isNaN(scanNumber(trimmed, marks)) ? null : marks;
}

/** Which decimal marks a cell fits, and the group mark it needs with each. */
export interface NumberFit {
  readonly shape: NumberShape;
  readonly dot: NumberMarks | null;
  readonly comma: NumberMarks | null;
}

const bad: NumberFit = { shape: 'bad', dot: null, comma: null };

/** Looks at one cell by itself. Total: any text has a shape, no text throws. */
export function numberFit(text: string): NumberFit {
  const dot = marksFitting(text, '.');
  const comma = marksFitting(text, ',');
  if (dot === null && comma === null) return bad;
  if (dot !== null && comma !== null) {
    const isSame = scanNumber(text, dot) === scanNumber(text, comma);
    return { shape: isSame ? 'plain' : 'either', dot, comma };
  }
  return { shape: dot === null ? 'comma' : 'dot', dot, comma };
}

/** Group marks that do not take part in the question of the decimal mark. */
export function isNeutralGroup(group: string | null): boolean {
  return group === null || otherGroups.includes(group);
}

const missingMarkers = new Set([
  '-',
  '--',
  '---',
  '\u2013',
  '\u2014',
  'n/a',
  'na',
  'n.a.',
  '#n/a',
  'null',
  'none',
  'nil',
  '?'
]);

/** Words and dashes that people type where there is no figure: read as missing, never as 0, and counted. */
export function isMissingMarker(text: string): boolean {
  const trimmed = text.trim();
  return trimmed.length <= 4 && missingMarkers.has(trimmed.toLowerCase());
}

/** A number and the unit written behind it in the same cell: `1 200 L`. Null where the cell is not so. */
export function splitUnit(text: string): { number: string; unit: string } | null {
  const trimmed = text.trim();
  if (trimmed.length > 80) return null;
  let end = trimmed.length;
  let cut = 0;
  for (let i = 0; i < end; i++) {
    const code = trimmed.charCodeAt(i);
    if (code >= 48 && code <= 57) cut = i + 1;
    else if (isUnitStart(code) && cut > 0) {
      end = i;
    }
  }
  if (cut === 0 || end === trimmed.length) return null;
  return { number: trimmed.slice(0, end).trim(), unit: trimmed.slice(end).trim() };
}

/** Letters, the degree sign and the like: what a unit can start with and a number cannot go on with. */
function isUnitStart(code: number): boolean {
  return (
    (code >= 65 && code <= 90) ||
    (code >= 97 && code <= 122) ||
    code === 0xb0 ||
    code === 0xba ||
    code > 0x3a0
  );
}
