import type { Dialect } from '../tokeniser.ts';
import { ByteSource } from './byte-source.ts';
import { decodeBytes, pieceDecoder, type PieceDecoder } from './decode.ts';
import { FirstWords } from './first-words.ts';
import { LineEndCounter, type LineEndCounts } from './line-ends.ts';
import { Utf8Check } from './utf8-check.ts';

export type EncodingHow =
  /** A byte order mark says so. */
  | 'byteOrderMark'
  /** Every other byte of the head is NUL. */
  | 'nulParity'
  /** No byte beyond ASCII. */
  | 'ascii'
  /** Every byte is well-formed UTF-8. */
  | 'validUtf8'
  /** Well-formed UTF-8 but for some bytes, fewer than the well-formed characters. */
  | 'mostlyUtf8'
  /** Not UTF-8. */
  | 'notUtf8';

export interface EncodingGuess {
  readonly name: Dialect['encoding'];
  readonly how: EncodingHow;
  readonly bomBytes: number;
}

export interface EncodingReport extends EncodingGuess {
  /** The first three words with characters beyond ASCII, read in this encoding. */
  readonly firstWords: readonly string[];
  /** Physical lines with bytes that are not UTF-8, the first ten; none where the encoding is another. */
  readonly badLines: readonly number[];
  readonly badBytes: number;
  readonly lineEnds: LineEndCounts;
}

/** Bytes at a file's start that its byte order mark and NUL parity are read from. */
export const headBytes = 1 << 16;

const mostBadLines = 10;

/** What the head of a file says of its encoding; the bytes after it may still tell UTF-8 from Windows-1252. */
export function guessEncoding(head: Uint8Array): EncodingGuess {
  const marked = byteOrderMark(head);
  if (marked !== null) return marked;
  const utf16 = nulParity(head);
  if (utf16 !== null) return { name: utf16, how: 'nulParity', bomBytes: 0 };
  const check = new Utf8Check();
  for (const byte of head) check.push(byte);
  return eightBit(check);
}

/** Decides the encoding of a file by all of its bytes. */
export async function surveyEncoding(source: Blob): Promise<EncodingReport> {
  const head = new Uint8Array(await source.slice(0, headBytes).arrayBuffer());
  const survey = new EncodingSurvey(guessEncoding(head));
  const bytes = new ByteSource(source, survey.guess.bomBytes, (slice, at) => survey.take(slice, at));
  let buffer = new ArrayBuffer(1 << 20);
  while (bytes.position < source.size) {
    ({ buffer } = await bytes.fill(buffer, 0, buffer.byteLength));
  }
  return survey.finish();
}

/** The evidence of a file's bytes from after its byte order mark on. */
export class EncodingSurvey {
  readonly guess: EncodingGuess;
  readonly #decoder: PieceDecoder | null;
  readonly #check = new Utf8Check();
  readonly #words = new FirstWords();
  readonly #lineEnds = new LineEndCounter();
  readonly #badLines: number[] = [];
  /** Bytes of the file that were taken. */
  #taken: number;

  constructor(guess: EncodingGuess) {
    this.guess = guess;
    this.#taken = guess.bomBytes;
    this.#decoder = guess.name.startsWith('utf-16') ? pieceDecoder(guess.name) : null;
  }

  /** Takes bytes of the file as they are fetched, `at` the first of them; those that come again are passed over. */
  take(bytes: Uint8Array, at: number): void {
    const known = this.#taken - at;
    if (known >= bytes.length) return;
    this.#push(bytes.subarray(known));
    this.#taken = at + bytes.length;
  }

  #push(bytes: Uint8Array): void {
    if (this.#decoder === null) {
      const isPassedOver = !this.#words.isOpen && this.#check.isIdle && isAscii(bytes);
      if (isPassedOver) this.#pushAscii(bytes);
      else this.#pushUnits(bytes);
      return;
    }
    const text = this.#decoder.decode(bytes, false);
    this.#pushUnits(Uint16Array.from({ length: text.length }, (_, i) => text.charCodeAt(i)));
  }

  finish(): EncodingReport {
    const wide = this.#decoder !== null;
    if (!wide && this.#check.end()) this.#noteBadLine();
    const found = wide || this.guess.how === 'byteOrderMark' ? this.guess : eightBit(this.#check);
    const isUtf8 = found.name === 'utf-8';
    return {
      ...found,
      firstWords: this.#words
        .words()
        .map((units) =>
          wide ? String.fromCharCode(...units) : decodeBytes(Uint8Array.from(units), found.name)
        ),
      badLines: isUtf8 ? this.#badLines : [],
      badBytes: isUtf8 ? this.#check.faults : 0,
      lineEnds: this.#lineEnds.counts()
    };
  }

  /** Of bytes that are all ASCII only the line ends count. */
  #pushAscii(bytes: Uint8Array): void {
    this.#lineEnds.pushAll(bytes);
    this.#words.endPiece(bytes);
  }

  #pushUnits(units: Uint8Array | Uint16Array): void {
    const words = this.#words;
    const lineEnds = this.#lineEnds;
    const isBytes = this.#decoder === null;
    for (let i = 0; i < units.length; i++) {
      const unit = units[i] ?? 0;
      lineEnds.push(unit);
      if (isBytes && this.#check.push(unit)) this.#noteBadLine();
      if (words.isOpen) words.push(unit);
      else if (unit >= 0x80) words.begin(units, i);
      // After one plain character another changes nothing: most bytes of a table are passed over here.
      if (isPlain(unit) && !words.isOpen) while (isPlain(units[i + 1] ?? 0)) i++;
    }
    words.endPiece(units);
  }

  #noteBadLine(): void {
    const line = this.#lineEnds.total + 1;
    if (this.#badLines.length < mostBadLines && this.#badLines.at(-1) !== line) this.#badLines.push(line);
  }
}

/** True where no byte is beyond ASCII, four bytes at a time where they lie so. */
function isAscii(bytes: Uint8Array): boolean {
  const isAligned = bytes.byteOffset % 4 === 0;
  const words = new Uint32Array(
    bytes.buffer,
    isAligned ? bytes.byteOffset : 0,
    isAligned ? bytes.length >> 2 : 0
  );
  let all = 0;
  for (let i = 0; i < words.length; i++) all |= words[i] ?? 0;
  for (let i = words.length * 4; i < bytes.length; i++) all |= bytes[i] ?? 0;
  return (all & 0x80808080) === 0;
}

function isPlain(unit: number): boolean {
  return unit >= 0x20 && unit < 0x7f;
}

function eightBit(check: Utf8Check): EncodingGuess {
  const { characters, faults } = check;
  if (faults === 0) return { name: 'utf-8', how: characters === 0 ? 'ascii' : 'validUtf8', bomBytes: 0 };
  // A character of UTF-8 is next to never met by chance in text of another encoding, so a few bad bytes, or lines of
  // another file pasted in, do not outweigh it; as UTF-8 they are named line by line, as Windows-1252 nothing would be.
  if (characters >= faults) return { name: 'utf-8', how: 'mostlyUtf8', bomBytes: 0 };
  return { name: 'windows-1252', how: 'notUtf8', bomBytes: 0 };
}

function byteOrderMark(head: Uint8Array): EncodingGuess | null {
  const [first, second, third] = head;
  const how = 'byteOrderMark';
  if (first === 0xef && second === 0xbb && third === 0xbf) return { name: 'utf-8', how, bomBytes: 3 };
  if (first === 0xff && second === 0xfe) return { name: 'utf-16le', how, bomBytes: 2 };
  if (first === 0xfe && second === 0xff) return { name: 'utf-16be', how, bomBytes: 2 };
  return null;
}

/** UTF-16 where at least three in ten bytes of one parity are NUL, and next to none of the other. */
function nulParity(head: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  const pairs = head.length >> 1;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < pairs; i++) {
    if (head[2 * i] === 0) even++;
    if (head[2 * i + 1] === 0) odd++;
  }
  if (odd >= pairs * 0.3 && even * 10 < odd) return 'utf-16le';
  if (even >= pairs * 0.3 && odd * 10 < even) return 'utf-16be';
  return null;
}
