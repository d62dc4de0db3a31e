import type { ColumnSet } from '#lib/data/columns/index.ts';
import type { ReasonCode } from '#lib/data/words/index.ts';
import type { RecordBlock, RecordView } from '../tokeniser.ts';

/**
 * Reads one field of each record straight into its column. One reader is made per column and file; it keeps what it
 * found in properties, so that no object is made per record.
 */
export interface CellReader {
  readonly key: string;
  readonly cell: number;
  /** The cell that the last `read` stumbled over: `cell`, or one beside it that belongs to the field. */
  readonly failedCell: number;
  /** Why the last `read` that returned false did so. */
  readonly reason: ReasonCode;
  /** Goes on in the columns of a new batch, which will have about so many rows. */
  bind(set: ColumnSet, rows: number): void;
  /** Reads the field and adds it to the row; false where the cell cannot be read. */
  read(record: RecordView): boolean;
  /** Reads the field of a block's records, but of those marked, and marks those whose cell cannot be read. */
  readBlock(block: RecordBlock, odd: Uint8Array): void;
  /** Adds the field of records [from, to) of the block just read; none of them is marked. */
  pushBlock(block: RecordBlock, from: number, to: number): void;
}
