import type { Fate, ReasonCode } from '#lib/data/words/index.ts';
import type { FateCounts } from '../account.ts';
import type { ShownRecord } from '../inspection.ts';
import { fateOf, newFateCounts } from '../read/record-fates.ts';
import { isBlank, isFormOnly, isLineOfText, repeats, widthOf, type TableShape } from '../read/shape.ts';
import { TableWatch } from '../read/table-watch.ts';
import { tokeniserFor } from '../tokenise/index.ts';
import {
  cellLook,
  longestBlock,
  type Dialect,
  type FormFault,
  type NumberMarks,
  type RecordBlock,
  type RecordView
} from '../tokeniser.ts';
import { ColumnGatherer, type ColumnEvidence, type Wanted } from './gather.ts';

/** What the pass has to know beforehand. */
export interface PassPlan {
  readonly dialect: Dialect;
  readonly headerLine: number | null;
  readonly headers: readonly string[];
  /** Cells that a record has to have. */
  readonly width: number;
  readonly unitsRow: readonly string[] | null;
  readonly wanted: readonly Wanted[];
  /** Cells that no record can do without. */
  readonly needed: readonly number[];
}

export interface PassResult {
  readonly columns: readonly ColumnEvidence[];
  readonly foreseen: FateCounts;
  readonly first: readonly ShownRecord[];
  readonly last: readonly ShownRecord[];
  readonly isStopped: boolean;
}

/** Takes the bytes and the records of a pass along the way. */
export interface Beside {
  visit(record: RecordView, fault: FormFault | null): void;
  visitBlock(block: RecordBlock): void;
  onFetched(bytes: Uint8Array, at: number): void;
}

/** Records as read at either end. */
const shownRecords = 3;
/** Longest cell shown. */
const longestShown = 200;
/** Only near the end of a file are records kept for showing: their texts cost time. */
const tailBytes = 4 << 20;

/** Reads all bytes of a file once and gathers what its cells say about how they are to be read. `beside` sees all records too. */
export async function gatherEvidence(
  source: Blob,
  plan: PassPlan,
  onProgress: (bytes: number) => Promise<void> | void,
  shouldStop: () => boolean,
  beside: Beside | null = null
): Promise<PassResult> {
  const pass = new EvidencePass(plan, source.size);
  let isStopped = false;
  const report = await tokeniserFor(plan.dialect).read(
    source,
    plan.dialect,
    (record, fault) => {
      beside?.visit(record, fault);
      return pass.visit(record, fault);
    },
    {
      onBytes: async (bytes) => {
        await onProgress(bytes);
        pass.bytes = bytes;
        isStopped = shouldStop();
        return !isStopped;
      },
      visitBlock: (block) => {
        beside?.visitBlock(block);
        return pass.visitBlock(block);
      },
      onFetched: (bytes, at) => beside?.onFetched(bytes, at)
    }
  );
  return { ...pass.result(report.lines), isStopped };
}

class EvidencePass {
  bytes = 0;
  readonly #plan: PassPlan;
  readonly #size: number;
  readonly #columns: readonly ColumnGatherer[];
  readonly #shape: TableShape;
  readonly #watch: TableWatch;
  readonly #counts: FateCounts = newFateCounts();
  /** A cell with a number in it, to tell data from repeated headers by; null where no column has numbers. */
  readonly #probe: number | null;
  readonly #first: ShownRecord[] = [];
  readonly #last: ShownRecord[] = [];
  /** Records of the block at hand that have to be looked at one by one. */
  readonly #odd = new Uint8Array(longestBlock);
  readonly #values = new Float64Array(longestBlock);
  readonly #looks = new Uint8Array(longestBlock);

  constructor(plan: PassPlan, size: number) {
    this.#plan = plan;
    this.#size = size;
    this.#columns = plan.wanted.map((wanted, cell) => new ColumnGatherer(cell, wanted));
    const probe = plan.wanted.findIndex(({ number, time }) => number && !time);
    this.#probe = probe < 0 ? null : probe;
    this.#shape = plan;
    this.#watch = new TableWatch(plan);
  }

  visit(record: RecordView, fault: FormFault | null): boolean {
    if (!this.#isData(record, fault)) return true;
    for (const column of this.#columns) column.add(record);
    if (this.#lacksNeeded(record)) {
      this.#count('refused');
      return true;
    }
    this.#count('used');
    if (this.#counts.used <= shownRecords) this.#first.push(shown(record));
    if (this.#size - this.bytes < tailBytes || this.#size < tailBytes) this.#keepLast(record);
    return true;
  }

  /** The same for a block: what is data beyond doubt column by column, each other record by itself in its turn. */
  visitBlock(block: RecordBlock): number {
    const odd = this.#odd;
    this.#markOdd(block, odd);
    let from = 0;
    for (let i = 0; i < block.count; i++) {
      if (odd[i] === 0) continue;
      this.#addBlock(block, from, i);
      from = i + 1;
      this.visit(block.record(i), null);
      if (this.#watch.isElsewhere) odd.fill(1, from, block.count);
    }
    this.#addBlock(block, from, block.count);
    return block.count;
  }

  /** Marks what may be no data, and what is wanted for showing. */
  #markOdd(block: RecordBlock, odd: Uint8Array): void {
    const isInHead = block.line <= (this.#plan.headerLine ?? 0);
    const isFirst = this.#counts.used < shownRecords;
    const isUsual = block.cellCount === this.#shape.width && !this.#watch.isElsewhere;
    if (this.#probe === null || isInHead || isFirst || !isUsual) {
      odd.fill(1, 0, block.count);
      return;
    }
    odd.fill(0, 0, block.count);
    const looks = this.#looks;
    block.numbers(this.#probe, '.', this.#values, looks);
    for (let i = 0; i < block.count; i++) {
      if (looks[i] !== cellLook.digits && looks[i] !== cellLook.marked) odd[i] = 1;
    }
    for (const cell of this.#plan.needed) {
      block.empties(cell, looks);
      for (let i = 0; i < block.count; i++) if (looks[i] !== 0) odd[i] = 1;
    }
  }

  #addBlock(block: RecordBlock, from: number, to: number): void {
    if (from === to) return;
    for (const column of this.#columns) column.addBlock(block, from, to);
    this.#counts.records += to - from;
    this.#counts.used += to - from;
    for (let i = Math.max(from, to - shownRecords); i < to; i++) this.#keepLast(block.record(i));
  }

  #lacksNeeded(record: RecordView): boolean {
    for (const cell of this.#plan.needed) if (record.isEmpty(cell)) return true;
    return false;
  }

  /** False for what is not data by its form; that is counted. */
  #isData(record: RecordView, fault: FormFault | null): boolean {
    const code = this.#reasonOfForm(record, fault);
    if (code !== null) this.#count(fateOf(code));
    return code === null;
  }

  #reasonOfForm(record: RecordView, fault: FormFault | null): ReasonCode | null {
    const { headerLine, unitsRow } = this.#plan;
    if (record.line === headerLine) return 'header';
    const isInHead = headerLine !== null && record.line < headerLine;
    const width = widthOf(record, this.#shape);
    const isPlace = isInHead || this.#watch.isElsewhere;
    const isOdd = width !== 'fits' || fault !== null || isPlace || this.#isProbeOdd(record);
    if (!isOdd) return null;
    if (isBlank(record)) return 'blank';
    if (isInHead) return 'preamble';
    if (isLineOfText(record, this.#shape) && isFormOnly(fault)) return 'footer';
    if (fault !== null) return fault.code;
    if (unitsRow !== null && repeats(record, unitsRow)) return 'unitsRow';
    const part = this.#watch.look(record);
    if (part !== null) return part;
    return width === 'tooFewCells' || width === 'tooManyCells' ? width : null;
  }

  /** Data nearly always have a number in the probe's cell; what has none is looked at more closely. */
  #isProbeOdd(record: RecordView): boolean {
    return this.#probe === null || Number.isNaN(record.number(this.#probe, plainMarks));
  }

  #count(fate: Fate): void {
    this.#counts.records++;
    this.#counts[fate]++;
  }

  #keepLast(record: RecordView): void {
    this.#last.push(shown(record));
    if (this.#last.length > shownRecords) this.#last.shift();
  }

  result(lines: number): Omit<PassResult, 'isStopped'> {
    const foreseen = { ...this.#counts, lines };
    return {
      columns: this.#columns.map(({ evidence }) => evidence),
      foreseen,
      first: this.#first,
      last: this.#last
    };
  }
}

const plainMarks: NumberMarks = { decimal: '.', group: null };

function shown(record: RecordView): ShownRecord {
  const cells = Array.from({ length: Math.min(record.cellCount, 1000) }, (_, cell) =>
    record.text(cell).slice(0, longestShown)
  );
  return { line: record.line, cells };
}
