import type { ColumnSet } from '#lib/data/columns/index.ts';
import type { Account } from './account.ts';
import type { ColumnReading, Layout } from './layout.ts';
import { Reading } from './reading.ts';
import type { Source } from './source.ts';
import { tokeniserFor } from './tokenise/index.ts';
import type { Dialect, FormFault, RecordBlock, RecordView } from './tokeniser.ts';

/** Values of a file that were read while it was looked at, by the layout that a part of it suggested. */
export interface ReadAhead {
  readonly layout: Layout;
  /** In their order; whoever takes them over empties the list. */
  readonly batches: ColumnSet[];
  /** What `readRecords` would say of the file, by a layout that reads alike. */
  readonly account: (source: Source, layout: Layout) => Account;
}

/**
 * Reads a file by a layout that is not settled yet, beside the pass that gathers its evidence. Nothing of it is handed
 * on before that pass ends, and then only if what was settled reads every cell in the same way.
 */
export class AheadReading {
  readonly #layout: Layout;
  readonly #batches: ColumnSet[] = [];
  readonly #reading: Reading;

  /** All rows come in one batch, so that whoever takes it over need not copy it. */
  constructor(layout: Layout, expectedRows: number) {
    this.#layout = layout;
    this.#reading = new Reading(layout, expectedRows, (batch) => this.#batches.push(batch), Infinity);
  }

  visit(record: RecordView, fault: FormFault | null): void {
    this.#reading.visit(record, fault);
  }

  visitBlock(block: RecordBlock): void {
    this.#reading.visitBlock(block);
  }

  end(lines: number): ReadAhead {
    const reading = this.#reading;
    reading.end(lines);
    return {
      layout: this.#layout,
      batches: this.#batches,
      account: (source, layout) => reading.account(source, layout)
    };
  }
}

/** Reads all of a file ahead, in a pass of its own; null where `onBytes`, told the bytes behind, asked to stop. */
export async function readAhead(
  blob: Blob,
  dialect: Dialect,
  reading: AheadReading,
  onBytes: (bytes: number) => Promise<boolean>
): Promise<ReadAhead | null> {
  let reached = 0;
  const report = await tokeniserFor(dialect).read(
    blob,
    dialect,
    (record, fault) => {
      reading.visit(record, fault);
      return true;
    },
    {
      onBytes: async (bytes) => {
        const goesOn = await onBytes(bytes);
        if (goesOn) reached = bytes;
        return goesOn;
      },
      visitBlock: (block) => {
        reading.visitBlock(block);
        return block.count;
      }
    }
  );
  const read = reading.end(report.lines);
  return reached < blob.size ? null : read;
}

/** True where two layouts of one file give the same values and fates, whatever else they say of it. */
export function readsAlike(first: Layout, second: Layout): boolean {
  return JSON.stringify(readingOf(first)) === JSON.stringify(readingOf(second));
}

/** What of a layout the values hang on. */
function readingOf(layout: Layout): object {
  const { dialect, headerLine, headers, width, unitsRow, ownExport, constants, stationZones, checked } =
    layout;
  return {
    dialect,
    headerLine,
    headers,
    width,
    unitsRow,
    ownExport,
    constants,
    stationZones,
    checked,
    columns: layout.columns.map(withSortedWords)
  };
}

/** The words of a column are listed as they were met, which tells nothing of how they are read. */
function withSortedWords(reading: ColumnReading): ColumnReading {
  if (reading.kind !== 'check' && reading.kind !== 'choice') return reading;
  return { ...reading, words: reading.words.toSorted(([a], [b]) => (a < b ? -1 : 1)) };
}
