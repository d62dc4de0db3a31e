import type { DemoRow } from '../row.ts';

/** What a person would have answered about a column on first meeting it. */
export interface DemoAnswer {
  /** The header of the column, or empty for a question about the whole file. */
  readonly column: string;
  /** `field`, `member`, `part`, `unit`, `date order`, `decimal mark`, `zone`, `ordered as`, `density method`, or `word: ` and the word. */
  readonly question: string;
  readonly answer: string;
}

/** A column of a layout: how it is headed, what it is, and how a row's value is written in it. */
export interface LayoutColumn {
  readonly header: string;
  /** The field it feeds; a row's cells that stand instead of a value are found by it. Empty: none. */
  readonly field: string;
  /** What the units row says beneath the header, where the layout has one. */
  readonly unitRow: string;
  /** Decimals of a number; 0 where the column holds whole numbers or text. */
  readonly decimals: number;
  readonly answers: readonly (readonly [question: string, answer: string])[];
  readonly text: (row: DemoRow) => string;
}

/** A column of text or names. */
export function nameColumn(header: string, field: string, text: (row: DemoRow) => string): LayoutColumn {
  return { header, field, unitRow: '', decimals: 0, answers: [['field', field]], text };
}

/** A column of numbers in a unit, with a fixed count of decimals; missing is blank. */
export function numberColumn(
  header: string,
  field: string,
  unit: string,
  decimals: number,
  value: (row: DemoRow) => number,
  unitRow = ''
): LayoutColumn {
  return {
    header,
    field,
    unitRow,
    decimals,
    answers: [
      ['field', field],
      ['unit', unit]
    ],
    text: (row) => {
      const number = value(row);
      if (number !== number) return '';
      return decimals === 0 ? String(number) : number.toFixed(decimals);
    }
  };
}

/** The column of observed densities, all of them read on a digital densitometer. */
export function densityColumn(
  header: string,
  unit: 'kilogramPerCubicMetre' | 'kilogramPerLitre',
  decimals: number,
  value: (row: DemoRow) => number,
  unitRow = ''
): LayoutColumn {
  const column = numberColumn(header, 'densityObserved', unit, decimals, value, unitRow);
  return { ...column, answers: [...column.answers, ['density method', 'densitometer']] };
}

/** The words a sender uses for the states of a check; a blank cell is not recorded. */
export interface CheckWords {
  readonly passed: string;
  readonly failed: string;
  readonly notDone: string;
  readonly notRequired: string;
}

/** A column of a sample check in the sender's own words. */
export function checkColumn(header: string, field: 'waterTest' | 'visual', words: CheckWords): LayoutColumn {
  return {
    header,
    field,
    unitRow: '',
    decimals: 0,
    answers: [
      ['field', field],
      [`word: ${words.passed}`, 'passed'],
      [`word: ${words.failed}`, 'failed'],
      [`word: ${words.notDone}`, 'notDone'],
      [`word: ${words.notRequired}`, 'notRequired']
    ],
    text: (row) => {
      const state = row[field];
      return state === 'notRecorded' ? '' : words[state];
    }
  };
}
