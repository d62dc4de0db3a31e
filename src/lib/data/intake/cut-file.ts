import { detectDelimiter, firstWordsOf, headBytes, headText, type EncodingReport } from './bytes/index.ts';
import { headerFingerprint } from './fingerprint.ts';
import { readHead, type FileHead } from './head.ts';
import type { EncodingFinding } from './layout.ts';
import type { Dialect } from './tokeniser.ts';

/** A file cut into records, as far as its head goes. */
export interface CutFile {
  readonly dialect: Dialect;
  readonly survey: EncodingReport;
  readonly head: FileHead;
  readonly fingerprint: string;
  readonly otherDelimiters: readonly string[];
  /** First words beyond ASCII of its head in the encoding that a person chose; null where nobody did. */
  readonly wordsAsChosen: readonly string[] | null;
}

/** Cuts a file into records by encoding and delimiter, as found or as answered, and finds its header. */
export async function cutFile(
  blob: Blob,
  survey: EncodingReport,
  answers: ReadonlyMap<string, string>
): Promise<CutFile> {
  const encoding = encodings.find((known) => known === answers.get('encoding')) ?? survey.name;
  const bomBytes = encoding === survey.name ? survey.bomBytes : 0;
  const { text, isWhole } = await headText(blob, { encoding, bomBytes }, headBytes);
  const found = detectDelimiter(text, isWhole);
  const delimiter = delimiterOf(answers.get('delimiter')) ?? found.delimiter;
  const open: Dialect = { delimiter, encoding, bomBytes };
  const head = await readHead(blob, open);
  const unitsRow = head.header.units?.cells ?? null;
  return {
    dialect: { ...open, cells: head.columnCount },
    survey,
    head,
    fingerprint: headerFingerprint(delimiter, head.header.headers, unitsRow),
    wordsAsChosen: encoding === survey.name ? null : firstWordsOf(text),
    otherDelimiters: [found.delimiter, ...found.alternatives.map((fit) => fit.delimiter)].filter(
      (mark, _, all) => {
        return all.length > 1 && mark !== delimiter;
      }
    )
  };
}

const encodings = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;

function delimiterOf(answer: string | undefined): string | undefined {
  return answer !== undefined && [',', ';', '\t', '|'].includes(answer) ? answer : undefined;
}

const encodingWords: Readonly<Record<EncodingReport['how'], string>> = {
  byteOrderMark: 'by its byte order mark',
  nulParity: 'by the place of its NUL bytes',
  ascii: 'ASCII only',
  validUtf8: 'all of it is valid UTF-8',
  mostlyUtf8: 'nearly all of it is valid UTF-8',
  notUtf8: 'it is not UTF-8'
};

/** The encoding for the account. */
export function encodingOf({ dialect, survey }: CutFile): EncodingFinding {
  const isGiven = dialect.encoding !== survey.name;
  return {
    name: dialect.encoding,
    how: isGiven ? 'as answered' : encodingWords[survey.how],
    bom: dialect.bomBytes > 0
  };
}

/** The kind of line ends, `mixed` where there are several. */
export function lineEndsOf({ crlf, lf, cr }: EncodingReport['lineEnds']): string {
  const kinds = [crlf > 0 ? 'CRLF' : '', lf > 0 ? 'LF' : '', cr > 0 ? 'CR' : ''].filter(
    (kind) => kind !== ''
  );
  return kinds.length > 1 ? 'mixed' : (kinds[0] ?? 'none');
}
