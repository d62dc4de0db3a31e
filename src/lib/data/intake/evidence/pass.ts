import type { FateCounts } from '../account.ts';
import type { ShownRecord } from '../inspection.ts';
import { FateList } from '../read/record-fates.ts';
import { isBlank, repeats, tableShape, widthOf, type TableShape } from '../read/shape.ts';
import { tokeniserFor } from '../tokenise/index.ts';
import type { Dialect, FormFault, RecordView } from '../tokeniser.ts';
import { ColumnGatherer, type ColumnEvidence, type Wanted } from './gather.ts';

/** What the pass has to know beforehand. */
export interface PassPlan {
  readonly dialect: Dialect;
  readonly headerLine: number | null;
  readonly headers: readonly string[];
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

/** Records as read at either end. */
const shownRecords = 3;
/** Longest cell shown. */
const longestShown = 200;
/** Only near the end of a file are records kept for showing: their texts cost time. */
const tailBytes = 4 << 20;

/** Reads all bytes of a file once and gathers what its cells say about how they are to be read. */
export async function gatherEvidence(
  source: Blob,
  plan: PassPlan,
  onProgress: (bytes: number) => Promise<void> | void,
  shouldStop: () => boolean
): Promise<PassResult> {
  const pass = new EvidencePass(plan, source.size);
  let isStopped = false;
  const report = await tokeniserFor(plan.dialect).read(
    source,
    plan.dialect,
    (record, fault) => pass.visit(record, fault),
    async (bytes) => {
      await onProgress(bytes);
      pass.bytes = bytes;
      isStopped = shouldStop();
      return !isStopped;
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
  readonly #fates = new FateList();
  readonly #first: ShownRecord[] = [];
  readonly #last: ShownRecord[] = [];

  constructor(plan: PassPlan, size: number) {
    this.#plan = plan;
    this.#size = size;
    this.#columns = plan.wanted.map((wanted, cell) => new ColumnGatherer(cell, wanted));
    this.#shape = tableShape(plan.headers, plan.wanted.length);
  }

  visit(record: RecordView, fault: FormFault | null): boolean {
    const { counts } = this.#fates;
    if (!this.#isData(record, fault)) return true;
    for (const column of this.#columns) column.add(record);
    if (this.#lacksNeeded(record)) {
      this.#fates.add(record.line, 'missingTime', null, null, null);
      return true;
    }
    this.#fates.addUsed();
    if (counts.used <= shownRecords) this.#first.push(shown(record));
    if (this.#size - this.bytes < tailBytes || this.#size < tailBytes) this.#keepLast(record);
    return true;
  }

  #lacksNeeded(record: RecordView): boolean {
    for (const cell of this.#plan.needed) if (record.isEmpty(cell)) return true;
    return false;
  }

  /** False for what is not data by its form; that is counted. */
  #isData(record: RecordView, fault: FormFault | null): boolean {
    const { headerLine, headers, unitsRow } = this.#plan;
    const add = (code: Parameters<FateList['add']>[1]) => {
      this.#fates.add(record.line, code, null, null, null);
      return false;
    };
    if (headerLine !== null && record.line === headerLine) return add('header');
    const width = widthOf(record, this.#shape);
    const isOdd = width !== 'fits' || fault !== null || record.isEmpty(this.#plan.needed[0] ?? 0);
    if ((isOdd || headerLine !== null) && isOdd && isBlank(record)) return add('blank');
    if (headerLine !== null && record.line < headerLine) return add('preamble');
    if (fault !== null) return add(fault.code);
    if (repeatsHead(record, headers)) return add('repeatedHeader');
    if (unitsRow !== null && repeatsHead(record, unitsRow)) return add('unitsRow');
    if (width === 'tooFewCells' || width === 'tooManyCells') return add(width);
    return true;
  }

  #keepLast(record: RecordView): void {
    this.#last.push(shown(record));
    if (this.#last.length > shownRecords) this.#last.shift();
  }

  result(lines: number): Omit<PassResult, 'isStopped'> {
    const foreseen = { ...this.#fates.counts, lines };
    return {
      columns: this.#columns.map(({ evidence }) => evidence),
      foreseen,
      first: this.#first,
      last: this.#last
    };
  }
}

/** Compares the first cell before all others, since nearly every record differs there. */
function repeatsHead(record: RecordView, texts: readonly string[]): boolean {
  if (texts.length === 0) return false;
  return (
    record.text(0).trim().toLowerCase() === (texts[0] ?? '').trim().toLowerCase() && repeats(record, texts)
  );
}

function shown(record: RecordView): ShownRecord {
  const cells = Array.from({ length: Math.min(record.cellCount, 1000) }, (_, cell) =>
    record.text(cell).slice(0, longestShown)
  );
  return { line: record.line, cells };
}
