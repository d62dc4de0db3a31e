import { Dictionary } from '#lib/data/columns/index.ts';
import { longestBlock, type RecordBlock, type RecordView } from '../tokeniser.ts';
import { numberFit } from '../numbers/shape.ts';
import { keepSample, type CellSample } from './samples.ts';

/** A word of a check or choice column: as first typed, how often, and where. */
export interface WordCount {
  readonly typed: string;
  count: number;
  readonly samples: CellSample[];
}

/** Different words kept; a column with more is free text and no list of outcomes. */
export const mostWords = 40;

/** The different words of a column by their folded form, and the cells past the limit: words, and figures. */
export interface WordEvidence {
  readonly words: Map<string, WordCount>;
  beyond: number;
  figuresBeyond: number;
}

export function newWordEvidence(): WordEvidence {
  return { words: new Map(), beyond: 0, figuresBeyond: 0 };
}

/** Words that differ in case, width and blanks only are one word. */
export function foldWord(text: string): string {
  return text.slice(0, 200).normalize('NFKC').trim().toLowerCase().replace(/\s+/g, ' ');
}

/** Counts the words of one column, looking each text up by its bytes: few columns have many words. */
export class WordCounter {
  readonly evidence = newWordEvidence();
  readonly #typed = new Dictionary();
  /** The word of each code, null where it is past the limit. */
  readonly #words: (WordCount | null)[] = [null];
  readonly #codes = new Uint32Array(longestBlock);

  add(record: RecordView, cell: number): void {
    this.#addCode(record.code(cell, this.#typed), record, cell);
  }

  /** Adds the cells of records [from, to) of a block, blank ones left out. */
  addBlock(block: RecordBlock, from: number, to: number, cell: number): void {
    const codes = this.#codes;
    block.codes(cell, this.#typed, codes, null);
    for (let i = from; i < to; i++) {
      const code = codes[i] as number;
      if (code !== 0 && !this.#count(code)) this.#addCode(code, block.record(i), cell);
    }
  }

  /** Counts a word met before; false where more is to be done for it. */
  #count(code: number): boolean {
    const word = code < mostCodes ? this.#words[code] : undefined;
    if (word?.samples.length !== 3) return false;
    word.count++;
    return true;
  }

  #addCode(code: number, record: RecordView, cell: number): void {
    if (this.#count(code)) return;
    const text = record.text(cell);
    addWord(this.evidence, text, record.line);
    if (code < mostCodes) this.#words[code] = this.evidence.words.get(foldWord(text)) ?? null;
  }
}

/** Different texts remembered by code. */
const mostCodes = 10_000;

export function addWord(evidence: WordEvidence, text: string, line: number): void {
  const folded = foldWord(text);
  if (folded === '') return;
  let word = evidence.words.get(folded);
  if (word === undefined) {
    if (evidence.words.size >= mostWords) {
      if (numberFit(folded).shape === 'bad') evidence.beyond++;
      else evidence.figuresBeyond++;
      return;
    }
    word = { typed: text.trim().slice(0, 80), count: 0, samples: [] };
    evidence.words.set(folded, word);
  }
  word.count++;
  keepSample(word.samples, line, text);
}
