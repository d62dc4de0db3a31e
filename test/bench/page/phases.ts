/** The job of an import cut into phases, each timed apart over the same file with the site's own code. */
import { sha256OfBlob } from '#lib/data/digest/index.ts';
import { ByteSource } from '../../../src/lib/data/intake/bytes/byte-source.ts';
import { surveyEncoding } from '../../../src/lib/data/intake/bytes/index.ts';
import { tokeniserFor } from '../../../src/lib/data/intake/tokenise/index.ts';
import { inspect, layoutFrom, readRecords, type ReadAhead } from '#lib/data/intake/index.ts';
import { derive } from '../../../src/lib/data/ledger/derive.ts';
import { findDuplicates } from '../../../src/lib/data/ledger/duplicates.ts';
import { findCauses } from '../../../src/lib/data/ledger/find-causes.ts';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';

/** Milliseconds by phase, and bytes of columns by use. */
export interface Phases {
  readonly ms: Readonly<Record<string, number>>;
  readonly sourceBytes: number;
  readonly computedBytes: number;
  readonly rows: number;
}

const ms: Record<string, number> = {};

async function timed<T>(phase: string, work: () => Promise<T> | T): Promise<T> {
  const start = performance.now();
  const result = await work();
  ms[phase] = (ms[phase] ?? 0) + performance.now() - start;
  return result;
}

async function readBytes(file: Blob): Promise<void> {
  const bytes = new ByteSource(file, 0);
  let buffer = new ArrayBuffer(1 << 20);
  while (bytes.position < file.size) ({ buffer } = await bytes.fill(buffer, 0, buffer.byteLength));
}

function bytesOf(arrays: object): number {
  return Object.values(arrays).reduce(
    (sum: number, array: unknown) => sum + (ArrayBuffer.isView(array) ? array.byteLength : 0),
    0
  );
}

async function phasesOf(file: File): Promise<Phases> {
  const source = { name: file.name, blob: file };
  await timed('read bytes', () => readBytes(file));
  await timed('hash', () => sha256OfBlob(file));
  await timed('survey encoding', () => surveyEncoding(file));
  const found = { remembered: () => Promise.resolve(null), stations: [] };
  const inspection = await timed('inspect alone (survey, head, evidence)', () => inspect(source, found));
  let ahead: ReadAhead | null = null;
  await timed('inspect and read ahead', () =>
    inspect(source, { ...found, onAhead: (read) => (ahead = read) })
  );
  const answers = inspection.questions.flatMap(({ id, byDefault, readings }) =>
    byDefault === null ? [{ id, answer: readings[0]?.id ?? '' }] : []
  );
  const layout = layoutFrom(inspection, answers);
  if ('unanswered' in layout) throw new Error(`questions: ${layout.unanswered.join()}, need a first reading`);
  await timed('read and tokenise', () => tokeniserFor(layout.dialect).read(file, layout.dialect, () => true));
  await timed('read, tokenise and type', () => readRecords(source, layout, { onBatch: () => undefined }));
  const ledger = new Ledger();
  await timed('take over what was read ahead', () =>
    readRecords(source, layout, {
      ahead,
      onBatch: (batch) => {
        ledger.append({ id: 'file', name: file.name, sha256: '' }, batch);
      }
    })
  );
  const rows = ledger.source;
  const free = () => false;
  await timed('duplicates', () => findDuplicates(rows, free));
  const computed = await timed('density and reconcile', () => derive(rows, defaultSettings, free, new Set()));
  await timed('causes', () => findCauses(rows, computed, defaultSettings, free));
  ledger.recompute(defaultSettings, [], []);
  await timed('judge', () => ledger.rejudge(defaultSettings));
  const context = createContext(ledger, defaultSettings);
  await timed('order and answer', () => {
    const filter = {};
    answer(context, 'scope', { filter, without: [] });
    for (const by of ['station', 'tail', 'month'] as const) answer(context, 'discrepancy', { filter, by });
    answer(context, 'density', { filter, by: 'station' });
    answer(context, 'samples', { filter, by: 'station', check: 'waterTest' });
  });
  return {
    ms,
    sourceBytes: rows.columns.bytes,
    computedBytes: bytesOf(ledger.computed) + bytesOf(ledger.verdicts) + bytesOf(ledger.causes),
    rows: ledger.rowCount
  };
}

self.onmessage = ({ data }: MessageEvent<File>) => {
  void phasesOf(data).then((phases) => self.postMessage(phases));
};
