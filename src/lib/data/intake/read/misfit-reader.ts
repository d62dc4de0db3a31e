import type { ReasonCode } from '#lib/data/words/index.ts';
import { isMissingMarker } from '../numbers/shape.ts';
import { longestBlock, type RecordBlock, type RecordView } from '../tokeniser.ts';
import type { CellReader } from './cell-reader.ts';

/**
 * Guards a column whose figures would change the result but cannot be read, such as litres defuelled: a record with
 * such a figure is refused, since leaving it out would make a wrong number.
 */
export class MisfitReader implements CellReader {
  readonly key: string;
  readonly cell: number;
  readonly failedCell: number;
  readonly reason: ReasonCode = 'unitNotOfField';
  readonly #empties = new Uint8Array(longestBlock);

  constructor(key: string, cell: number) {
    this.key = key;
    this.cell = cell;
    this.failedCell = cell;
  }

  bind(): void {
    // It has no column of its own.
  }

  read(record: RecordView): boolean {
    if (record.isEmpty(this.cell)) return true;
    const text = record.text(this.cell).trim();
    if (!isMissingMarker(text) && !isZero(text)) return false;
    return true;
  }

  readBlock(block: RecordBlock, odd: Uint8Array): void {
    block.empties(this.cell, this.#empties);
    for (let i = 0; i < block.count; i++) {
      if (this.#empties[i] === 0 && !this.read(block.record(i))) odd[i] = 1;
    }
  }

  pushBlock(): void {
    // It has no column of its own.
  }
}

function isZero(text: string): boolean {
  return text.length <= 20 && /^0+([.,]0+)?$/.test(text);
}
