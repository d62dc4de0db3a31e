import { CodeColumn, ColumnSet, Dictionary } from '#lib/data/columns/index.ts';
import { checkStates, fieldNamed, splitKey, type ColumnKey } from '#lib/data/record/index.ts';
import { lineKey } from '#lib/data/ledger/index.ts';

/** A record as a literal: numbers, texts, and ISO instants for times. */
export type Literal = { readonly [K in ColumnKey]?: number | string };

function stateColumn(texts: readonly string[]): CodeColumn {
  const dictionary = new Dictionary();
  for (const text of texts) dictionary.code(text);
  return new CodeColumn(dictionary);
}

/** A batch as the intake hands it on, out of literal records; lines count from 2, below a header. */
export function batchOf(records: readonly Literal[]): ColumnSet {
  const batch = new ColumnSet();
  for (const [index, record] of records.entries()) {
    for (const [key, value] of Object.entries(record)) {
      const field = fieldNamed(splitKey(key).name);
      if (field.kind === 'number') batch.number(key).push(Number(value));
      else if (field.kind === 'time') batch.number(key).push(Date.parse(String(value)));
      else if (field.kind === 'text') batch.text(key).push(String(value));
      else if (field.kind === 'name') batch.code(key).pushText(String(value));
      else {
        if (batch.get(key) === undefined) {
          const column = stateColumn(field.kind === 'check' ? checkStates.slice(1) : field.choices);
          column.resize(batch.rowCount);
          batch.put(key, column);
        }
        batch.code(key).pushText(String(value));
      }
    }
    batch.number(lineKey).push(index + 2);
    batch.endRow();
  }
  return batch;
}

/** Golden record 1: hydrometer density at 27 °C, meter at 24 °C. */
export const goldenRecord = {
  ticket: '000417',
  time: '2031-07-01T10:20:00Z',
  station: 'JKES',
  tail: 'Q7-KEB',
  volume: 14850,
  densityObserved: 792.5,
  densityMethod: 'hydrometer',
  densityTemperature: 27,
  fuelTemperature: 24,
  arrivalFuel: 3420,
  departureFuel: 15140,
  groundBurn: 60
} as const satisfies Literal;
