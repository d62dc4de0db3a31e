import type {
  Along,
  Dialect,
  FormFault,
  RecordBlock,
  RecordView,
  RecordVisitor,
  TokeniserReport
} from '../tokeniser.ts';
import { FormFaults } from './form-faults.ts';
import { UsualCount } from './usual-count.ts';

/** How far the reading of a file has come: what one reader hands to another in the middle of it. */
export class ReadingState {
  /** The byte up to which the file has been read. */
  bytes: number;
  /** The physical line that the next record starts on. */
  line = 1;
  /** True once the visitor or the listener to progress asked to stop. */
  stopped = false;
  readonly usual: UsualCount;
  readonly #faults = new FormFaults();
  readonly #visit: RecordVisitor;
  readonly onFetched: Along['onFetched'];
  readonly #onBytes: Along['onBytes'];
  readonly #visitBlock: Along['visitBlock'];

  constructor(dialect: Dialect, visit: RecordVisitor, { onBytes, visitBlock, onFetched }: Along) {
    this.bytes = dialect.bomBytes;
    this.usual = new UsualCount(dialect.cells);
    this.#visit = visit;
    this.onFetched = onFetched;
    this.#onBytes = onBytes;
    this.#visitBlock = visitBlock;
  }

  /** True where records may be given in blocks. */
  get takesBlocks(): boolean {
    return this.#visitBlock !== undefined;
  }

  /** Gives a block of records; tells how many of them were taken, fewer than all where reading stops there. */
  giveBlock(block: RecordBlock): number {
    const taken = this.#visitBlock?.(block) ?? 0;
    this.line += taken;
    if (taken < block.count) this.stopped = true;
    return taken;
  }

  /** Gives a record to the visitor and goes on to the line after it. */
  give(record: RecordView, faults: readonly FormFault[]): void {
    const gravest = this.#faults.addRecord(faults);
    this.line += record.lines;
    if (!this.#visit(record, gravest)) this.stopped = true;
  }

  /** Notes progress; false where reading is to stop. */
  async reached(bytes: number): Promise<boolean> {
    this.bytes = bytes;
    if (!this.stopped && this.#onBytes !== undefined) this.stopped = !(await this.#onBytes(bytes));
    return !this.stopped;
  }

  report(): TokeniserReport {
    return { bytes: this.bytes, lines: this.line - 1, faults: this.#faults.kept };
  }
}
