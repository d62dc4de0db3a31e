import type { Column, ColumnSet } from '#lib/data/columns/index.ts';

/** Counts, for the account, the values each field got and the refusals each column is to blame for. */
export class CellCounts {
  readonly #agree = new Map<string, number>();
  readonly #disagree = new Map<number, number>();

  /** Counts the values of a batch of used records. */
  addBatch(batch: ColumnSet): void {
    for (const key of batch.keys()) this.#agree.set(key, this.agree(key) + valuesIn(batch.get(key)));
  }

  addRefusal(cell: number): void {
    this.#disagree.set(cell, this.disagree(cell) + 1);
  }

  agree(key: string): number {
    return this.#agree.get(key) ?? 0;
  }

  disagree(cell: number): number {
    return this.#disagree.get(cell) ?? 0;
  }
}

/** Rows of a column that are not missing. */
function valuesIn(column: Column | undefined): number {
  if (column === undefined) return 0;
  let missing = 0;
  if (column.kind === 'number') {
    const values = column.values();
    for (let row = 0; row < values.length; row++) if (values[row] !== values[row]) missing++;
  } else if (column.kind === 'code') {
    const codes = column.codes();
    for (let row = 0; row < codes.length; row++) if (codes[row] === 0) missing++;
  } else {
    const { ends } = column.parts();
    for (let row = 0; row < ends.length; row++) if (ends[row] === (row === 0 ? 0 : ends[row - 1])) missing++;
  }
  return column.length - missing;
}
