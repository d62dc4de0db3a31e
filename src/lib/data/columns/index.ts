export { CodeColumn } from './code-column.ts';
export { ColumnSet, type Column, type ColumnKind } from './column-set.ts';
export { Dictionary } from './dictionary.ts';
export { countByCode, rowsByCode } from './group.ts';
export { NumberColumn } from './number-column.ts';
export { TextColumn } from './text-column.ts';
