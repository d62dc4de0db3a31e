export { archiveOf } from './archive.ts';
export { recordsCsv } from './records-csv.ts';
export { harmless } from './csv.ts';
