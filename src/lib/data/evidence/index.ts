export { recordsCsv } from './records-csv.ts';
