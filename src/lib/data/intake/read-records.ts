import type { ColumnSet } from '#lib/data/columns/index.ts';
import type { Account } from './account.ts';
import { readsAlike, type ReadAhead } from './ahead.ts';
import type { Layout } from './layout.ts';
import { Reading } from './reading.ts';
import type { Source } from './source.ts';
import { tokeniserFor } from './tokenise/index.ts';

/** A record of fewer bytes than this is rare; where there are many, columns grow. */
const fewBytes = 64;

export interface ReadOptions {
  /** Takes the used records of a file, some at a time. */
  readonly onBatch: (batch: ColumnSet) => void;
  /** Awaited, so that other work can be let in. */
  readonly onProgress?: (bytes: number) => Promise<void> | void;
  readonly shouldStop?: () => boolean;
  readonly batchRows?: number;
  /** Values of this file read before; they are taken over if `layout` reads alike, and then no byte is read again. */
  readonly ahead?: ReadAhead | null;
}

export interface ReadResult {
  readonly account: Account;
  /** `contradiction`: a record fits only another reading than the one remembered; what was read must not be kept. */
  readonly stopped: 'no' | 'cancelled' | 'contradiction';
}

/**
 * Reads the values of a file by its layout. A record is used only if every mapped cell of it that is not blank can be
 * read: one bad cell, in whichever field, refuses the record, since what is left would be another record than the
 * file's. Each record that is not used is in the account with its line, its reason and the cell. With a layout that
 * another file's evidence settled, a cell that fits only another reading stops the file.
 */
export async function readRecords(source: Source, layout: Layout, options: ReadOptions): Promise<ReadResult> {
  const { ahead } = options;
  if (ahead && readsAlike(ahead.layout, layout)) return takeOver(source, layout, ahead, options);
  const reading = new Reading(
    layout,
    Math.ceil(source.blob.size / fewBytes),
    options.onBatch,
    options.batchRows
  );
  const report = await tokeniserFor(layout.dialect).read(
    source.blob,
    layout.dialect,
    (record, fault) => reading.visit(record, fault),
    {
      onBytes: async (bytes) => {
        await options.onProgress?.(bytes);
        return options.shouldStop?.() !== true;
      },
      visitBlock: (block) => reading.visitBlock(block)
    }
  );
  reading.end(report.lines);
  const stopped = options.shouldStop?.() === true ? 'cancelled' : 'no';
  return {
    account: reading.account(source, layout),
    stopped: reading.isContradicted ? 'contradiction' : stopped
  };
}

/** Hands on what was read before, each batch let go as it is. */
async function takeOver(
  source: Source,
  layout: Layout,
  { batches, account }: ReadAhead,
  { onBatch, onProgress, shouldStop }: ReadOptions
): Promise<ReadResult> {
  const share = source.blob.size / batches.length;
  const count = batches.length;
  for (let i = 1; i <= count; i++) {
    await onProgress?.(Math.round(share * i));
    if (shouldStop?.() === true) return { account: account(source, layout), stopped: 'cancelled' };
    const batch = batches.shift();
    if (batch !== undefined) onBatch(batch);
  }
  return { account: account(source, layout), stopped: 'no' };
}
