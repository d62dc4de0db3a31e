import type { CodeColumn, ColumnSet } from '#lib/data/columns/index.ts';
import { fieldsOfKind, type NameFieldName } from '#lib/data/record/index.ts';
import type { MergedName } from '#lib/data/settings/index.ts';

/** Start of the keys of columns that keep the names as written of rows that are counted under another. */
const writtenStart = '#written:';

/** Name fields some of whose rows are counted under another name than the one written. */
export function mergedFields(columns: ColumnSet): NameFieldName[] {
  return fieldsOfKind('name').filter((field) => {
    const written = columns.get(`${writtenStart}${field}`);
    return written?.kind === 'code' && written.codes().some((code) => code !== 0);
  });
}

/** Reads the name of a row as it stands in the source, whatever it is counted as. */
export function writtenReader(columns: ColumnSet, field: NameFieldName): (row: number) => string {
  const column = columns.code(field);
  const written = columns.get(`${writtenStart}${field}`);
  if (written?.kind !== 'code') return (row) => column.text(row);
  const codes = written.codes();
  return (row) => ((codes[row] ?? 0) === 0 ? column : written).text(row);
}

/** Counts rows under the names that a person merged, and puts back what was merged before and no longer is. */
export function mergeNames(columns: ColumnSet, merged: readonly MergedName[]): void {
  const before = columns.keys().filter((key) => key.startsWith(writtenStart));
  const fields = new Set([
    ...before.map((key) => key.slice(writtenStart.length)),
    ...merged.map(({ field }) => field)
  ]);
  for (const field of fields) {
    const column = columns.code(field);
    const written = columns.code(`${writtenStart}${field}`);
    putBack(column, written);
    apply(
      column,
      written,
      merged.filter((each) => each.field === field)
    );
  }
}

function putBack(column: CodeColumn, written: CodeColumn): void {
  const codes = column.codes();
  const before = written.codes();
  const known = [...written.dictionary.texts()].map((text) =>
    text === '' ? 0 : column.dictionary.code(text)
  );
  for (let row = 0; row < before.length; row++) {
    const code = before[row] ?? 0;
    if (code === 0) continue;
    codes[row] = known[code] ?? 0;
    before[row] = 0;
  }
}

function apply(column: CodeColumn, written: CodeColumn, merged: readonly MergedName[]): void {
  const targets = new Map<number, number>();
  for (const { from, to } of merged) {
    const code = column.dictionary.find(from);
    if (code !== undefined && from !== to) targets.set(code, column.dictionary.code(to));
  }
  if (targets.size === 0) return;
  const codes = column.codes();
  const names = written.codes();
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row] ?? 0;
    const target = targets.get(code);
    if (target === undefined) continue;
    names[row] = written.dictionary.code(column.dictionary.text(code));
    codes[row] = target;
  }
}
