import { exportFormatColumn, fieldNamed, splitKey } from '#lib/data/record/index.ts';
import type { StationEntry } from '#lib/data/settings/index.ts';
import { noteWords, type NoteCode, type ProblemCode } from '#lib/data/words/index.ts';
import {
  detectDelimiter,
  guessEncoding,
  headBytes,
  headText,
  surveyEncoding,
  type EncodingReport
} from './bytes/index.ts';
import type { Wanted } from './evidence/gather.ts';
import { gatherEvidence, type PassResult } from './evidence/pass.ts';
import { headerFingerprint } from './fingerprint.ts';
import { readHead, type FileHead } from './head.ts';
import { recognise } from './header/recognise.ts';
import type { FileBasis, Inspection } from './inspection.ts';
import type { EncodingFinding, Layout, Note, RememberedLayout } from './layout.ts';
import { answerMap, type Answer } from './question.ts';
import { questionsOf, settleBasis } from './settle/basis.ts';
import { chosenColumns } from './settle/fields.ts';
import { freeClocks, planTimes } from './settle/time-plan.ts';
import type { Source } from './source.ts';
import type { Dialect } from './tokeniser.ts';

/** Files larger than this are refused in words: 500 MB. */
export const largestFile = 500_000_000;
export const mostColumns = 1000;

export interface InspectOptions {
  /** The layout kept for a header fingerprint, null where there is none. */
  readonly remembered: (fingerprint: string) => Promise<RememberedLayout | null>;
  readonly stations: readonly StationEntry[];
  /** Awaited, so that other work can be let in. */
  readonly onProgress?: (bytes: number) => Promise<void> | void;
  readonly shouldStop?: () => boolean;
  /** Answers in hand, which may change what is looked at: fields of columns, delimiter, encoding. */
  readonly answers?: readonly Answer[];
}

/**
 * Looks at a file before anything of it is counted. Where its header has a remembered layout, only its head is read;
 * else all of its bytes are, and what they leave open becomes questions.
 */
export async function inspect(source: Source, options: InspectOptions): Promise<Inspection> {
  const { blob } = source;
  const problem = await problemOf(blob);
  if (problem !== null) return failed(source, problem);
  const answers = answerMap(options.answers ?? []);
  const headOf = new Uint8Array(await blob.slice(0, headBytes).arrayBuffer());
  const guess = guessEncoding(headOf);
  const quick = await cut(
    blob,
    { ...guess, firstWords: [], badLines: [], badBytes: 0, lineEnds: noLineEnds },
    answers
  );
  const remembered = await options.remembered(quick.fingerprint);
  if (remembered !== null && remembered.fingerprint === quick.fingerprint)
    return known(source, quick, remembered, options);
  const survey = await surveyEncoding(blob, (bytes) => goOn(bytes / 4, options));
  if (survey === null) return failed(source, 'stopped');
  const isSame = survey.name === guess.name && survey.bomBytes === guess.bomBytes;
  const whole = isSame ? { ...quick, survey } : await cut(blob, survey, answers);
  if (whole.head.columnCount > mostColumns) return failed(source, 'tooManyColumns');
  return examine(source, whole, answers, options);
}

const noLineEnds = { crlf: 0, lf: 0, cr: 0 };

async function goOn(bytes: number, { onProgress, shouldStop }: InspectOptions): Promise<boolean> {
  await onProgress?.(bytes);
  return shouldStop?.() !== true;
}

/** First bytes of files that are no text: archives and workbooks, compressed files, pages, documents. */
const magics: readonly (readonly number[])[] = [
  [0x50, 0x4b, 0x03, 0x04],
  [0x1f, 0x8b],
  [0xd0, 0xcf, 0x11, 0xe0],
  [0x25, 0x50, 0x44, 0x46],
  [0x89, 0x50, 0x4e, 0x47]
];

async function problemOf(blob: Blob): Promise<ProblemCode | null> {
  if (blob.size === 0) return 'empty';
  if (blob.size > largestFile) return 'tooLarge';
  const start = new Uint8Array(await blob.slice(0, 64).arrayBuffer());
  if (magics.some((magic) => magic.every((byte, i) => start[i] === byte))) return 'notText';
  return /^\s*<(!doctype html|html)/i.test(new TextDecoder().decode(start)) ? 'webPage' : null;
}

/** A file cut into records, as far as its head goes. */
interface CutFile {
  readonly dialect: Dialect;
  readonly survey: EncodingReport;
  readonly head: FileHead;
  readonly fingerprint: string;
  readonly otherDelimiters: readonly string[];
}

async function cut(
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

function encodingOf({ dialect, survey }: CutFile): EncodingFinding {
  const isGiven = dialect.encoding !== survey.name;
  return {
    name: dialect.encoding,
    how: isGiven ? 'as answered' : encodingWords[survey.how],
    bom: dialect.bomBytes > 0
  };
}

function lineEndsOf({ crlf, lf, cr }: EncodingReport['lineEnds']): string {
  const kinds = [crlf > 0 ? 'CRLF' : '', lf > 0 ? 'LF' : '', cr > 0 ? 'CR' : ''].filter(
    (kind) => kind !== ''
  );
  return kinds.length > 1 ? 'mixed' : (kinds[0] ?? 'none');
}

function failed(source: Source, problem: ProblemCode): Inspection {
  return {
    file: { name: source.name, bytes: source.blob.size },
    problem,
    encoding: { name: '', how: '', bom: false },
    firstWords: [],
    delimiter: '',
    lineEnds: '',
    headerLine: null,
    headers: [],
    fingerprint: '',
    remembered: null,
    columns: [],
    questions: [],
    notes: [],
    first: [],
    last: [],
    foreseen: { lines: 0, records: 0, header: 0, used: 0, setAside: 0, refused: 0, skipped: 0 },
    basis: null
  };
}

function zonesOf(stations: readonly StationEntry[]): (readonly [string, string])[] {
  return stations.flatMap(({ code, zone }) => (zone === null ? [] : [[code, zone] as const]));
}

/** A file whose header is known: the remembered layout with this file's own encoding and place of the header. */
function known(
  source: Source,
  file: CutFile,
  remembered: RememberedLayout,
  options: InspectOptions
): Inspection {
  const { head } = file;
  const layout: Layout = {
    ...remembered.layout,
    dialect: file.dialect,
    encoding: encodingOf(file),
    lineEnds: 'not counted',
    headerLine: head.header.line,
    stationZones: zonesOf(options.stations),
    checked: false
  };
  return {
    ...failed(source, 'stopped'),
    problem: null,
    encoding: layout.encoding,
    delimiter: file.dialect.delimiter,
    lineEnds: layout.lineEnds,
    headerLine: layout.headerLine,
    headers: layout.headers,
    fingerprint: file.fingerprint,
    remembered: { ...remembered, layout },
    columns: layout.findings,
    notes: layout.notes
  };
}

async function examine(
  source: Source,
  file: CutFile,
  answers: ReadonlyMap<string, string>,
  options: InspectOptions
): Promise<Inspection> {
  const { header, sights } = file.head;
  const isOwn = isOwnExport(file.head);
  const looks = isOwn ? { wanted: sights.map(() => nothing), needed: [] } : looksOf(file.head, answers);
  const pass = await gatherEvidence(
    source.blob,
    {
      dialect: file.dialect,
      headerLine: header.line,
      headers: header.headers,
      unitsRow: header.units?.cells ?? null,
      ...looks
    },
    (bytes) => options.onProgress?.(bytes),
    () => options.shouldStop?.() === true
  );
  if (pass.isStopped) return failed(source, 'stopped');
  if (pass.foreseen.records === pass.foreseen.header + pass.foreseen.skipped)
    return failed(source, 'noRecords');
  return inspectionOf(source, file, basisOf(file, pass, isOwn, options), pass, answers);
}

function basisOf(file: CutFile, pass: PassResult, ownExport: boolean, options: InspectOptions): FileBasis {
  const { header, sights } = file.head;
  return {
    dialect: file.dialect,
    encoding: encodingOf(file),
    firstWords: file.survey.firstWords,
    lineEnds: lineEndsOf(file.survey.lineEnds),
    headerLine: header.line,
    headers: header.headers,
    unitsRow: header.units?.cells ?? null,
    fingerprint: file.fingerprint,
    ownExport,
    evidence: { sights, columns: pass.columns, ownExport, hasHeader: header.index >= 0 },
    otherDelimiters: file.otherDelimiters,
    notes: fileNotes(file),
    stationZones: zonesOf(options.stations)
  };
}

function inspectionOf(
  source: Source,
  file: CutFile,
  basis: FileBasis,
  pass: PassResult,
  answers: ReadonlyMap<string, string>
): Inspection {
  const settled = settleBasis(basis, answers);
  return {
    file: { name: source.name, bytes: source.blob.size },
    problem: null,
    encoding: basis.encoding,
    firstWords: basis.firstWords,
    delimiter: file.dialect.delimiter,
    lineEnds: basis.lineEnds,
    headerLine: basis.headerLine,
    headers: basis.headers,
    fingerprint: basis.fingerprint,
    remembered: null,
    columns: settled.findings,
    questions: questionsOf(basis, settled, answers),
    notes: [...basis.notes, ...settled.notes],
    first: pass.first,
    last: pass.last,
    foreseen: pass.foreseen,
    basis
  };
}

function isOwnExport({ header, sights }: FileHead): boolean {
  const last = header.headers.length - 1;
  const content = sights[last]?.content;
  return (
    header.headers[last] === exportFormatColumn && content !== undefined && content.numbers === content.filled
  );
}

const nothing: Wanted = { number: false, time: false, words: false };
const everything: Wanted = { number: true, time: true, words: true };

/** What to look for in which column: what its field needs, or everything where the field itself is open. */
function looksOf(
  { sights, header }: FileHead,
  answers: ReadonlyMap<string, string>
): { wanted: Wanted[]; needed: number[] } {
  const recognition = recognise(sights, chosenColumns(answers));
  const { roles, unitColumns, doubts } = recognition;
  const times = planTimes(roles, new Set(chosenColumns(answers).keys()));
  const keys = new Set(roles.map(({ key }) => key));
  const isWhole =
    ['station', 'tail', 'time'].every((key) => keys.has(key as 'tail')) && times.doubts.length === 0;
  const open = new Set(doubts.flatMap((doubt) => (doubt.kind === 'field' ? doubt.columns : [doubt.column])));
  const isDateOnly = times.plans.some(({ column, clockColumn }) => {
    return clockColumn === null && (sights[column]?.content.instants ?? 0) === 0;
  });
  const clocks = isDateOnly ? freeClocks(sights, recognition) : [];
  const wanted = sights.map((_, column): Wanted => {
    const role = roles.find((known) => known.column === column);
    if (role === undefined) {
      if (unitColumns.has(column)) return { ...nothing, words: true };
      if (clocks.includes(column) && isWhole) return { ...nothing, time: true };
      return open.has(column) || !isWhole || header.index < 0 ? everything : nothing;
    }
    const { kind } = fieldNamed(splitKey(role.key).name);
    return {
      number: kind === 'number',
      time: kind === 'time',
      words: kind === 'check' || kind === 'choice'
    };
  });
  const time = times.plans.find(({ key }) => key === 'time')?.column;
  const named = roles.filter(({ key }) => key === 'station' || key === 'tail').map(({ column }) => column);
  return { wanted, needed: time === undefined ? named : [time, ...named] };
}

function fileNotes(file: CutFile): Note[] {
  const notes: Note[] = [];
  const add = (code: NoteCode, detail: string, line: number | null = null) =>
    notes.push({ code, line, words: detail === '' ? noteWords[code] : `${noteWords[code]}: ${detail}` });
  const { survey, head } = file;
  if (survey.how === 'notUtf8' || survey.how === 'nulParity') add('encodingGuessed', survey.name);
  if (survey.badBytes > 0) add('invalidBytes', String(survey.badBytes), survey.badLines[0]);
  if (lineEndsOf(survey.lineEnds) === 'mixed') {
    const { crlf, lf, cr } = survey.lineEnds;
    add('mixedLineEnds', `${crlf} CRLF, ${lf} LF, ${cr} CR`);
  }
  if (head.header.index < 0) add('headerless', '');
  const seen = new Set<string>();
  for (const header of head.header.headers) {
    if (header !== '' && seen.has(header)) add('duplicateHeader', header, head.header.line);
    seen.add(header);
  }
  return notes;
}
