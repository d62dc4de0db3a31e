import { canonicalUnits } from '#lib/core/units/index.ts';
import {
  checkStates,
  exportName,
  familyKey,
  fieldNamed,
  splitKey,
  upliftFields,
  type ColumnKey
} from '#lib/data/record/index.ts';
import { noteWords, valueWords } from '#lib/data/words/index.ts';
import { foldWord } from '../evidence/word-evidence.ts';
import type { FileBasis } from '../inspection.ts';
import type { ColumnFinding, ColumnReading } from '../layout.ts';
import type { Settled } from './settle.ts';

const keyByName = new Map<string, ColumnKey>(upliftFields.map(({ name }) => [exportName(name), name]));

/** The column key of a header of this program's records export, null for a computed column. */
export function exportedKey(header: string): ColumnKey | null {
  const known = keyByName.get(header);
  if (known !== undefined) return known;
  for (const field of upliftFields) {
    if (field.kind !== 'number' || !('family' in field)) continue;
    const start = `${exportName(field.name).slice(0, -field.exportUnit.length - 1)}_`;
    const end = `_${field.exportUnit}`;
    if (header.startsWith(start) && header.endsWith(end) && header.length > start.length + end.length) {
      return familyKey(field.name, header.slice(start.length, -end.length));
    }
  }
  return null;
}

/** Settles a file that this program exported: its headers name fields and units exactly, so nothing is asked. */
export function settleExport(basis: FileBasis): Settled {
  const readings: ColumnReading[] = [];
  const findings: ColumnFinding[] = [];
  const ignored: string[] = [];
  basis.headers.forEach((header, column) => {
    const key = exportedKey(header);
    if (key === null) ignored.push(header);
    else readings.push(readingOf(key, column));
    findings.push(findingOf(header, column, key));
  });
  return {
    readings,
    findings,
    questions: [],
    constants: [],
    notes: [
      {
        code: 'computedIgnored',
        line: basis.headerLine,
        words: `${noteWords.computedIgnored}: ${ignored.join(', ')}`
      }
    ],
    needsPass: false
  };
}

function readingOf(key: ColumnKey, column: number): ColumnReading {
  const field = fieldNamed(splitKey(key).name);
  if (field.kind === 'number') {
    return {
      kind: 'number',
      key,
      column,
      marks: { decimal: '.', group: null, machine: true },
      proven: true,
      unit: canonicalUnits[field.quantity],
      unitBySize: false,
      zeroIsMissing: false,
      unitColumn: null,
      unitWords: [],
      sign: 1
    };
  }
  if (field.kind === 'time') {
    const plain = {
      clockColumn: null,
      order: null,
      proven: true,
      serial: null,
      zone: 'utc',
      doubled: 'refuse',
      bareDate: 'refuse',
      yearFirstOpen: false
    } as const;
    return { kind: 'time', key, column, ...plain };
  }
  if (field.kind === 'name' || field.kind === 'text') return { kind: field.kind, key, column };
  const states: readonly string[] = field.kind === 'check' ? checkStates : field.choices;
  return {
    kind: field.kind,
    key,
    column,
    words: states.map((state) => [foldWord(valueWords(key, state)), state]),
    ppmLimit: null
  };
}

function findingOf(header: string, column: number, key: ColumnKey | null): ColumnFinding {
  const field = key === null ? null : fieldNamed(splitKey(key).name);
  const isNumber = field?.kind === 'number';
  return {
    index: column,
    header,
    field: key,
    part: key === null ? null : 'whole',
    unit: isNumber ? canonicalUnits[field.quantity] : null,
    unitFrom: isNumber ? 'header' : null,
    how: key === null ? null : 'export',
    agree: 0,
    disagree: 0,
    samples: [],
    proof: null
  };
}
