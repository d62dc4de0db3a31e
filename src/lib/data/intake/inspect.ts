import type { StationEntry } from '#lib/data/settings/index.ts';
import type { ProblemCode } from '#lib/data/words/index.ts';
import { AheadReading, readAhead, type ReadAhead } from './ahead.ts';
import { EncodingSurvey, guessEncoding, headBytes } from './bytes/index.ts';
import { cutFile, encodingOf, lineEndsOf, type CutFile } from './cut-file.ts';
import { gatherEvidence, type PassPlan, type PassResult } from './evidence/pass.ts';
import { fileNotes } from './file-notes.ts';
import { mostColumns, problemOf } from './file-problem.ts';
import type { FileBasis, Inspection } from './inspection.ts';
import type { Layout, RememberedLayout } from './layout.ts';
import { layoutFrom } from './layout-from.ts';
import { isOwnExport, looksOf, noLooks } from './looks.ts';
import { partOf } from './part-of.ts';
import { answerMap, type Answer } from './question.ts';
import { newFateCounts } from './read/record-fates.ts';
import { fitRemembered } from './remembered.ts';
import { questionsOf, settleBasis } from './settle/basis.ts';
import type { Source } from './source.ts';

export interface InspectOptions {
  /** The layout kept for a header fingerprint, null where there is none. */
  readonly remembered: (fingerprint: string) => Promise<RememberedLayout | null>;
  readonly stations: readonly StationEntry[];
  /** Awaited, so that other work can be let in. */
  readonly onProgress?: (bytes: number) => Promise<void> | void;
  readonly shouldStop?: () => boolean;
  /** Given the values that could be read along the way; left out, none are. */
  readonly onAhead?: (ahead: ReadAhead) => void;
  /**
   * Looks at the file in another thread, as `inspect` would with nothing remembered, while its values are read ahead in
   * this one. Left out, both are done here in one pass.
   */
  readonly elsewhere?: LookElsewhere;
  /** Answers in hand, which may change what is looked at: fields of columns, delimiter, encoding. */
  readonly answers?: readonly Answer[];
}

export type LookElsewhere = (
  source: Source,
  options: Pick<InspectOptions, 'stations' | 'answers' | 'onProgress' | 'shouldStop'>
) => Promise<Inspection>;

/**
 * Looks at a file before anything of it is counted. Where its header has a remembered layout, only its head is read;
 * else all of its bytes are, and what they leave open becomes questions.
 */
export async function inspect(source: Source, options: InspectOptions): Promise<Inspection> {
  const { blob } = source;
  const problem = await problemOf(blob);
  if (problem !== null) return failed(source, problem);
  const answers = answerMap(options.answers ?? []);
  const guess = guessEncoding(new Uint8Array(await blob.slice(0, headBytes).arrayBuffer()));
  const quick = await cutFile(blob, { ...guess, ...nothingSurveyed }, answers);
  if (quick.head.columnCount > mostColumns) return failed(source, 'tooManyColumns');
  const remembered = await rememberedFor(quick, options);
  if (remembered !== null) return knownInspection(source, quick, remembered);
  if (options.elsewhere !== undefined) return inTwo(source, quick, answers, options, options.elsewhere);
  const survey = new EncodingSurvey(guess);
  const pass = await passOver(source, quick, survey, answers, options);
  if (pass === null) return failed(source, 'stopped');
  const report = survey.finish();
  if (report.name === guess.name)
    return examined(source, { ...quick, survey: report }, pass, answers, options);
  // The head had none of the bytes that tell the encoding, so all was read by another.
  const file = await cutFile(blob, report, answers);
  const again = await passOver(source, file, new EncodingSurvey(report), answers, options);
  return again === null ? failed(source, 'stopped') : examined(source, file, again, answers, options);
}

const nothingSurveyed = { firstWords: [], badLines: [], badBytes: 0, lineEnds: { crlf: 0, lf: 0, cr: 0 } };

/** The layout kept for this header; a file without a header is never taken for another, whatever its columns. */
async function rememberedFor(file: CutFile, options: InspectOptions): Promise<RememberedLayout | null> {
  if (file.head.header.index < 0) return null;
  const remembered = await options.remembered(file.fingerprint);
  if (remembered?.fingerprint !== file.fingerprint) return null;
  return fitRemembered(remembered, file, zonesOf(options.stations));
}

function zonesOf(stations: readonly StationEntry[]): Layout['stationZones'] {
  return stations.flatMap(({ code, zone }) => (zone === null ? [] : [[code, zone] as const]));
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
    foreseen: newFateCounts(),
    basis: null
  };
}

function knownInspection(source: Source, file: CutFile, remembered: RememberedLayout): Inspection {
  const { layout } = remembered;
  return {
    ...failed(source, 'stopped'),
    problem: null,
    encoding: layout.encoding,
    delimiter: file.dialect.delimiter,
    lineEnds: layout.lineEnds,
    headerLine: layout.headerLine,
    headers: layout.headers,
    fingerprint: file.fingerprint,
    remembered,
    columns: layout.findings,
    notes: layout.notes
  };
}

/** Has the file looked at elsewhere and reads its values here meanwhile; both end together. */
async function inTwo(
  source: Source,
  file: CutFile,
  answers: ReadonlyMap<string, string>,
  options: InspectOptions,
  elsewhere: LookElsewhere
): Promise<Inspection> {
  const { stations, onProgress, onAhead } = options;
  const plan = planOf(file, answers);
  const likely = onAhead === undefined ? null : await likelyLayout(source, file, plan, options);
  let lookedBytes = 0;
  let isLookedAt = false;
  const shouldStop = () => options.shouldStop?.() === true;
  const look = elsewhere(source, {
    stations,
    answers: options.answers ?? [],
    shouldStop,
    onProgress: (bytes) => {
      lookedBytes = bytes;
      return likely === null ? onProgress?.(bytes) : undefined;
    }
  }).finally(() => (isLookedAt = true));
  const ahead =
    likely === null
      ? null
      : readAhead(source.blob, file.dialect, new AheadReading(likely.layout, likely.rows), async (bytes) => {
          await onProgress?.(isLookedAt ? bytes : Math.min(bytes, lookedBytes));
          return !shouldStop();
        });
  const [inspection, read] = await Promise.all([look, ahead]);
  if (inspection.problem === null && read !== null) onAhead?.(read);
  return inspection;
}

/** What one pass over a file's bytes brought. */
interface Passed {
  readonly pass: PassResult;
  readonly ahead: AheadReading | null;
}

/** Goes over all bytes of a file as it is cut; null where it was stopped. */
async function passOver(
  source: Source,
  file: CutFile,
  survey: EncodingSurvey,
  answers: ReadonlyMap<string, string>,
  options: InspectOptions
): Promise<Passed | null> {
  const plan = planOf(file, answers);
  const likely = options.onAhead === undefined ? null : await likelyLayout(source, file, plan, options);
  const ahead = likely === null ? null : new AheadReading(likely.layout, likely.rows);
  const pass = await gatherEvidence(
    source.blob,
    plan,
    (bytes) => options.onProgress?.(bytes),
    () => options.shouldStop?.() === true,
    {
      visit: (record, fault) => ahead?.visit(record, fault),
      visitBlock: (block) => ahead?.visitBlock(block),
      onFetched: (bytes, at) => survey.take(bytes, at)
    }
  );
  return pass.isStopped ? null : { pass, ahead };
}

/** What is found out of a file that was gone over. */
function examined(
  source: Source,
  file: CutFile,
  { pass, ahead }: Passed,
  answers: ReadonlyMap<string, string>,
  options: InspectOptions
): Inspection {
  const { foreseen } = pass;
  if (foreseen.records === foreseen.header + foreseen.skipped) return failed(source, 'noRecords');
  if (ahead !== null) options.onAhead?.(ahead.end(foreseen.lines));
  return inspectionOf(source, basisOf(file, pass, options), pass, answers);
}

function planOf({ head, dialect }: CutFile, answers: ReadonlyMap<string, string>): PassPlan {
  const { header } = head;
  const looks = isOwnExport(head) ? noLooks(head) : looksOf(head, answers);
  return {
    dialect,
    headerLine: header.line,
    headers: header.headers,
    width: head.width,
    unitsRow: header.units?.cells ?? null,
    ...looks
  };
}

/** Answers can open further questions, hardly more often than this. */
const mostRounds = 3;

/** How a file will be read, most likely, and how many records will be used. */
interface Likely {
  readonly layout: Layout;
  readonly rows: number;
}

/** Records of a file as its part has them, and some more: columns that turn out too short are copied. */
function expectedRows(used: number, part: Source, source: Source): number {
  return Math.ceil(((1.05 * used) / part.blob.size) * source.blob.size) + 16;
}

/** The layout that a part of a file suggests, each open question answered by its first reading; null where none does. */
async function likelyLayout(
  source: Source,
  file: CutFile,
  plan: PassPlan,
  options: InspectOptions
): Promise<Likely | null> {
  const { encoding } = file.dialect;
  if (encoding !== 'utf-8' && encoding !== 'windows-1252') return null;
  const part = { name: source.name, blob: await partOf(source.blob) };
  const pass = await gatherEvidence(
    part.blob,
    plan,
    () => undefined,
    () => false
  );
  let answers = [...(options.answers ?? [])];
  for (let round = 0; round < mostRounds; round++) {
    const inspection = inspectionOf(part, basisOf(file, pass, options), pass, answerMap(answers));
    const layout = layoutFrom(inspection, answers);
    if (!('unanswered' in layout)) return { layout, rows: expectedRows(pass.foreseen.used, part, source) };
    const first = inspection.questions.flatMap(({ id, readings: [reading] }) =>
      layout.unanswered.includes(id) && reading !== undefined ? [{ id, answer: reading.id }] : []
    );
    if (first.length === 0) return null;
    answers = [...answers, ...first];
  }
  return null;
}

function basisOf(file: CutFile, pass: PassResult, options: InspectOptions): FileBasis {
  const { header, sights, width } = file.head;
  return {
    dialect: file.dialect,
    encoding: encodingOf(file),
    firstWords: file.wordsAsChosen ?? file.survey.firstWords,
    lineEnds: lineEndsOf(file.survey.lineEnds),
    headerLine: header.line,
    headers: header.headers,
    width,
    unitsRow: header.units?.cells ?? null,
    fingerprint: file.fingerprint,
    ownExport: isOwnExport(file.head),
    evidence: { sights, columns: pass.columns },
    otherDelimiters: file.otherDelimiters,
    notes: fileNotes(file),
    stationZones: zonesOf(options.stations)
  };
}

function inspectionOf(
  source: Source,
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
    delimiter: basis.dialect.delimiter,
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
