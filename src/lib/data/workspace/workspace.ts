import { sha256OfBlob, sha256OfText } from '#lib/data/digest/index.ts';
import { archiveOf, harmless, recordsCsv } from '#lib/data/evidence/index.ts';
import {
  inspect,
  layoutFrom,
  readRecords,
  type Account,
  type Answer,
  type Inspection,
  type LookElsewhere,
  openFile,
  refusedCsv,
  type NotOpened,
  type ReadAhead
} from '#lib/data/intake/index.ts';
import { addressFrom, Ledger } from '#lib/data/ledger/index.ts';
import {
  answer,
  createContext,
  recordRows,
  study,
  type Asked,
  type Answered,
  type QuestionName,
  type RecordList,
  type StudyName
} from '#lib/data/questions/index.ts';
import { defaultSettings, type Settings } from '#lib/data/settings/index.ts';
import {
  defaultPreferences,
  unpackColumns,
  type FindingNote,
  type Preferences,
  type StorageState,
  type Store
} from '#lib/data/store/index.ts';
import { openFaultWords, problemWords } from '#lib/data/words/index.ts';
import type { GivenFile, SourceLines } from './calls.ts';
import type { DemoSource } from './demo-source.ts';
import { createEntry, needsAnotherLook, unansweredOf, viewOf, type FileEntry } from './file-entry.ts';
import { carefulStore } from './careful-store.ts';
import { asideCounts, asideOf, withAside } from './aside.ts';
import { hashedAtOnceBytes, isKeptCopy, mayBeSameFile, storedColumnsOf, storedFileOf } from './keeping.ts';
import { dataFingerprint, resultFingerprint } from './fingerprints.ts';
import { lookAlikesOf, type LookAlikes } from './look-alikes.ts';
import { readLines } from './source-lines.ts';
import type { WorkspaceState } from './state.ts';
import { drive, type Course } from './study.ts';
import {
  storedAccount,
  storedLayout,
  storedPreferences,
  storedRemembered,
  storedSettings
} from './stored.ts';

export interface WorkspaceOptions {
  readonly store: Store;
  readonly program: string;
  /** A clock, ms. Files are named by it too, so all windows must have it from one origin. */
  readonly now: () => number;
  /** Lets messages that have arrived be taken in. */
  readonly pause: () => Promise<void>;
  readonly onState: (state: WorkspaceState) => void;
  readonly demo: DemoSource;
  /** Looks at large files in another thread; left out, all is done in this one. */
  readonly elsewhere?: LookElsewhere;
  /** Records taken in at most, all files together; left out, 5 million. */
  readonly mostRecords?: number;
}

const mostRecords = 5_000_000;

/** Bytes of the files whose values are kept before they are known to be read right. */
const mostAheadBytes = 400_000_000;
/** Files of fewer bytes are looked at sooner than another thread would hear of them. */
const largeBytes = 4 << 20;
/** Progress is told at most this often. */
const progressMs = 100;
/** Working out a part of the records leaves this many times its own duration to reading. */
const recomputeShare = 4;
/** Room made for a file's records, over what its first ones let expect. */
const roomForGuess = 1.03;
/** Work stops this often for questions that have arrived: about two frames. */
const pauseMs = 30;

/**
 * The one conductor: takes files in, asks, remembers, forgets, restores and answers. Files are worked on one after
 * another; questions are answered in between.
 */
export class Workspace {
  readonly #options: WorkspaceOptions;
  readonly #store: Store;
  /** True where the browser once refused to keep or to find something. */
  #hasStorageFault = false;
  #isChangedElsewhere = false;
  readonly #ledger = new Ledger();
  #entries: FileEntry[] = [];
  #settings: Settings = defaultSettings;
  #preferences: Preferences = defaultPreferences;
  #notes: readonly FindingNote[] = [];
  #storage: { state: StorageState; usedBytes: number | null } = { state: 'thisWindowOnly', usedBytes: null };
  #lookAlikes: readonly LookAlikes[] = [];
  #version = 0;
  #context = createContext(this.#ledger, defaultSettings);
  #work: Promise<void> = Promise.resolve();
  #nextId = 1;
  #toldAt = -Infinity;
  #pausedAt = -Infinity;
  #readingsWaiting = 0;
  #recomputedAt = -Infinity;
  #recomputeMs = 0;
  /** True where records in the ledger are not worked out yet. */
  #isBehind = false;
  /** Records set aside by file, as of the version. */
  #aside: ReadonlyMap<string, number> = new Map();

  constructor(options: WorkspaceOptions) {
    this.#options = options;
    this.#store = carefulStore(options.store, () => {
      this.#hasStorageFault = true;
    });
    this.#store.watch(() => {
      this.#isChangedElsewhere = true;
      this.#tell();
    });
  }

  get state(): WorkspaceState {
    const data = dataFingerprint(this.#entries, this.#preferences.undone);
    const counts = this.#entries.map((entry) => (entry.status === 'used' ? entry.account?.counts : null));
    return {
      version: this.#version,
      files: this.#entries.map((entry) => viewOf(entry, this.#aside.get(entry.id) ?? 0)),
      lookAlikes: this.#lookAlikes,
      recordsUsed: this.#context.select({}).rows.length,
      recordsRead: counts.reduce((sum, count) => sum + (count?.records ?? 0), 0),
      settings: this.#settings,
      preferences: this.#preferences,
      notes: this.#notes,
      storage: {
        ...this.#storage,
        hasFault: this.#hasStorageFault,
        changedElsewhere: this.#isChangedElsewhere
      },
      dataFingerprint: data,
      resultFingerprint: resultFingerprint(data, this.#settings, this.#options.program),
      program: this.#options.program,
      demoSeed: this.#options.demo.seed
    };
  }

  /** Takes up what the store kept. */
  async restore(): Promise<void> {
    const store = this.#store;
    this.#settings = storedSettings(await store.settings());
    this.#preferences = storedPreferences(await store.preferences());
    this.#notes = await store.notes();
    for (const stored of await store.files()) {
      const entry = createEntry(stored);
      this.#entries.push(entry);
      this.#nextId = Math.max(this.#nextId, stored.order + 1);
      entry.sha256 = stored.sha256 === '' ? null : stored.sha256;
      entry.layout = storedLayout(stored.layout);
      entry.account = storedAccount(stored.account);
      if (this.#ledger.source.files.some(({ sha256 }) => sha256 !== '' && sha256 === stored.sha256)) {
        // Two windows took in the same file.
        entry.status = 'duplicate';
        continue;
      }
      const columns = await store.columns(stored.id);
      if (columns?.program === this.#options.program && entry.account !== null) {
        this.#ledger.append({ ...entry, sha256: stored.sha256 }, unpackColumns(columns.columns));
        entry.status = 'used';
      } else if (entry.source !== null && entry.layout !== null) {
        await this.#read(entry);
      } else if (isKeptCopy(stored)) {
        entry.status = 'duplicate';
      } else {
        entry.status = 'failed';
        entry.problem = entry.source === null ? keptWithoutSource : keptOtherwise;
      }
    }
    for (const entry of this.#entries) if (entry.status === 'duplicate') this.#nameOriginal(entry);
    await this.#changed();
  }

  /** Says of a copy found in the store which file it is the same as. */
  #nameOriginal(copy: FileEntry): void {
    const same = this.#entries.find(({ status, sha256 }) => status === 'used' && sha256 === copy.sha256);
    if (same === undefined) this.#fail(copy, copyWithoutSource);
    else copy.problem = sameFileWords(same);
  }

  addFiles(files: readonly GivenFile[], demo = false): Promise<void> {
    for (const file of files) {
      const entry = this.#addEntry(file, demo);
      void this.#enqueueReading(() => this.#open(entry));
    }
    this.#tell();
    return Promise.resolve();
  }

  answerQuestion(given: { readonly fileId: string; readonly answer: Answer }): Promise<void> {
    const entry = this.#entry(given.fileId);
    entry.answers = [...entry.answers.filter(({ id }) => id !== given.answer.id), given.answer];
    if (needsAnotherLook(entry)) return this.#enqueue(() => this.#inspectAgain(entry));
    this.#tell();
    return Promise.resolve();
  }

  useFile(fileId: string): Promise<void> {
    const entry = this.#entry(fileId);
    return entry.status === 'asking' && unansweredOf(entry).length === 0
      ? this.#enqueueReading(() => this.#settleAndRead(entry))
      : Promise.resolve();
  }

  async useAllFiles(): Promise<void> {
    await Promise.all(this.#entries.map((entry) => this.useFile(entry.id)));
  }

  /** Stops the reading of a file; what was read of it is taken out. */
  cancelFile(fileId: string): Promise<void> {
    this.#entry(fileId).stopped = true;
    return Promise.resolve();
  }

  removeFile(fileId: string): Promise<void> {
    this.#entry(fileId).stopped = true;
    return this.#enqueue(async () => {
      const removed = this.#entries.find(({ id }) => id === fileId);
      this.#entries = this.#entries.filter((entry) => entry !== removed);
      this.#ledger.remove(fileId);
      await this.#store.removeFile(fileId);
      await this.#changed();
      if (removed !== undefined && removed.status !== 'duplicate') this.#lookAtCopiesOf(removed);
    });
  }

  /** What was left out because a file had it counts once that file is gone. */
  #lookAtCopiesOf(removed: FileEntry): void {
    const copies = this.#entries.filter(
      ({ status, sha256 }) => status === 'duplicate' && sha256 === removed.sha256
    );
    for (const copy of copies) {
      copy.source ??= removed.source;
      if (copy.source === null) {
        this.#fail(copy, copyWithoutSource);
        continue;
      }
      copy.status = 'waiting';
      copy.problem = null;
      void this.#enqueueReading(() => this.#inspect(copy));
    }
  }

  account(fileId: string): Promise<Account | null> {
    const entry = this.#entry(fileId);
    return Promise.resolve(
      entry.account === null ? null : withAside(entry.account, asideOf(this.#ledger, fileId))
    );
  }

  /** The records of a file that were refused or set aside, as they stand in it, with the reason beside each. */
  async refusedRecords(fileId: string): Promise<Blob | null> {
    const entry = this.#entry(fileId);
    const account = await this.account(fileId);
    if (entry.source === null || entry.layout === null || account === null) return null;
    const parts = await refusedCsv(
      { name: entry.name, blob: entry.source },
      entry.layout,
      account.records,
      harmless
    );
    return new Blob(parts, { type: 'text/csv;charset=utf-8' });
  }

  async sourceLines(addressText: string): Promise<SourceLines | null> {
    const address = addressFrom(addressText);
    const row = address === null ? -1 : this.#ledger.source.rowAt(address);
    if (address === null || row < 0) return null;
    const { id } = this.#ledger.source.fileOf(row);
    const entry = this.#entry(id);
    if (entry.source === null || entry.layout === null) return null;
    const lines = this.#ledger.source.linesOf(row);
    const text = await readLines(entry.source, entry.layout.dialect.encoding, address.line, lines);
    return { file: entry.name, line: address.line, text };
  }

  exportRecords(list: RecordList): Promise<Blob> {
    const rows = recordRows(this.#context, list);
    const parts = [...recordsCsv(this.#ledger, this.#settings, rows)];
    return Promise.resolve(new Blob(parts, { type: 'text/csv;charset=utf-8' }));
  }

  /** Takes new settings. Limits rewrite verdicts only; all else is computed again. */
  changeSettings(settings: Settings): Promise<void> {
    return this.#enqueue(async () => {
      const onlyLimits =
        JSON.stringify({ ...settings, limitSets: [] }) ===
        JSON.stringify({ ...this.#settings, limitSets: [] });
      this.#settings = settings;
      await this.#store.putSettings(settings);
      if (onlyLimits) {
        this.#ledger.rejudge(settings);
        this.#renewContext();
        this.#tell();
      } else await this.#changed();
    });
  }

  async keepNote(note: FindingNote): Promise<void> {
    this.#notes = [...this.#notes.filter(({ address }) => address !== note.address), note];
    await this.#store.putNote(note);
    this.#tell();
  }

  changePreferences(preferences: Preferences): Promise<void> {
    return this.#enqueue(async () => {
      this.#preferences = preferences;
      await this.#store.putPreferences(preferences);
      await this.#changed();
    });
  }

  ask<N extends QuestionName>(name: N, asked: Asked<N>): Answered<N> {
    return answer(this.#context, name, asked);
  }

  /**
   * Answers a study in the turns that nothing else needs. It waits until what is being read is read, and begins anew
   * where records, masses or verdicts change under it.
   */
  async study<N extends StudyName>(name: N, asked: Asked<N>, course: Course): Promise<Answered<N>> {
    for (;;) {
      while (this.#readingsWaiting > 0) await this.#work;
      const context = this.#context;
      const driven = await drive(
        study(context, name, asked),
        course,
        this.#options.now,
        () => context !== this.#context || this.#readingsWaiting > 0
      );
      if (driven.isDone) return driven.answer;
    }
  }

  async openDemo(): Promise<void> {
    const { demo } = this.#options;
    await this.changeSettings(demo.settings(this.#settings));
    for await (const file of demo.files()) await this.addFiles([file], true);
  }

  async saveDemo(): Promise<Blob> {
    const entries = this.#entries.filter(({ demo, source }) => demo && source !== null);
    const files = await Promise.all(
      entries.map(async ({ name, source }) => ({
        name,
        bytes: new Uint8Array((await source?.arrayBuffer()) ?? [])
      }))
    );
    const truth = this.#options.demo
      .truth()
      .map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
    return archiveOf([...files, ...truth]);
  }

  async closeDemo(): Promise<void> {
    for (const entry of this.#entries.filter(({ demo }) => demo)) await this.removeFile(entry.id);
    await this.changeSettings(this.#options.demo.settingsWithout(this.#settings, defaultSettings));
  }

  forgetEverything(): Promise<void> {
    return this.#enqueue(async () => {
      for (const entry of this.#entries) this.#ledger.remove(entry.id);
      this.#entries = [];
      this.#settings = defaultSettings;
      this.#preferences = defaultPreferences;
      this.#notes = [];
      await this.#store.clear();
      await this.#changed();
    });
  }

  #entry(fileId: string): FileEntry {
    const entry = this.#entries.find(({ id }) => id === fileId);
    if (entry === undefined) throw new RangeError(`file: ${fileId}, need one in hand`);
    return entry;
  }

  /** One piece of work at a time, in the order asked. A piece that fails does not stop the next. */
  #enqueue(work: () => Promise<void>): Promise<void> {
    const done = this.#work.then(work);
    this.#work = done.catch(() => undefined);
    return done;
  }

  /** The same for work that may read records; what the last of it left to be worked out is worked out then. */
  #enqueueReading(work: () => Promise<void>): Promise<void> {
    this.#readingsWaiting++;
    return this.#enqueue(async () => {
      try {
        await work();
      } finally {
        this.#readingsWaiting--;
        if (this.#readingsWaiting === 0 && this.#isBehind) this.#recompute();
      }
    });
  }

  #addEntry({ name, blob }: GivenFile, demo: boolean): FileEntry {
    const order = this.#nextId++;
    // Windows number their files apart from each other, so the number alone would name two.
    const id = `file-${order}-${Math.round(this.#options.now() * 1000)}`;
    const entry = createEntry({ id, name, bytes: blob.size, order, demo, source: blob });
    this.#entries.push(entry);
    return entry;
  }

  /** Opens what was given: a table as it is, a packed one, or an archive with several; each is then looked at. */
  async #open(entry: FileEntry): Promise<void> {
    if (entry.stopped || entry.source === null) return;
    entry.status = 'inspecting';
    this.#tell();
    const { files, notOpened } = await openFile(entry.name, entry.source, async (bytes) => {
      await this.#progress(entry, bytes, 0);
      return !entry.stopped;
    });
    const [first, ...others] = files;
    const [fault, ...faults] = notOpened;
    if (first === undefined) {
      this.#fail(entry, fault === undefined ? problemWords.empty : faultWords(fault));
    } else {
      entry.name = first.name;
      entry.source = first.blob;
      entry.bytes = first.blob.size;
      await this.#inspect(entry);
      for (const file of others) await this.#inspect(this.#addEntry(file, entry.demo));
    }
    for (const more of first === undefined ? faults : notOpened) {
      const failed = this.#addEntry({ name: more.name, blob: new Blob() }, entry.demo);
      failed.source = null;
      this.#fail(failed, faultWords(more));
    }
    this.#tell();
  }

  async #inspect(entry: FileEntry): Promise<void> {
    if (entry.stopped || entry.source === null) return;
    entry.status = 'inspecting';
    this.#tell();
    try {
      if (await this.#isNew(entry)) await this.#examine(entry, entry.source, true);
    } catch (error) {
      this.#fail(entry, wordsOf(error));
    }
    this.#tell();
  }

  /** Looks at a file; with a remembered layout that fits its header the values are read at once. */
  async #examine(entry: FileEntry, blob: Blob, mayRemember: boolean): Promise<void> {
    const store = this.#store;
    entry.ahead = null;
    const keepAhead = (ahead: ReadAhead) => {
      entry.ahead = ahead;
    };
    const { elsewhere } = this.#options;
    const inspection = await inspect(
      { name: entry.name, blob },
      {
        ...(elsewhere !== undefined && blob.size >= largeBytes ? { elsewhere } : {}),
        ...(this.#mayReadAhead(entry) ? { onAhead: keepAhead } : {}),
        remembered: async (fingerprint) =>
          mayRemember ? storedRemembered(await store.layout(layoutKey(fingerprint))) : null,
        stations: this.#settings.stations,
        answers: entry.answers,
        onProgress: (bytes) => this.#progress(entry, bytes, entry.rowsDone),
        shouldStop: () => entry.stopped
      }
    );
    entry.inspection = inspection;
    if (inspection.problem !== null) this.#fail(entry, problemWords[inspection.problem]);
    else if (inspection.remembered !== null) {
      entry.remembered = true;
      entry.answers = [...inspection.remembered.answers];
      entry.layout = inspection.remembered.layout;
      await this.#read(entry);
    } else {
      entry.status = 'asking';
      if (entry.demo) await this.#answerForDemo(entry, inspection);
    }
  }

  /** False where the values read of files that wait for their answers would fill the memory. */
  #mayReadAhead({ bytes }: FileEntry): boolean {
    const waiting = this.#entries.filter(({ ahead }) => ahead !== null);
    return waiting.reduce((sum, entry) => sum + entry.bytes, bytes) <= mostAheadBytes;
  }

  /** The demo answers the questions of its own files as a person would. */
  async #answerForDemo(entry: FileEntry, inspection: Inspection): Promise<void> {
    entry.answers = [...this.#options.demo.answers(entry.name, inspection)];
    if (unansweredOf(entry).length === 0) await this.#settleAndRead(entry);
  }

  /**
   * False where the same bytes are in hand already: they are counted once. Large files are hashed here only if one in
   * hand may be the same.
   */
  async #isNew(entry: FileEntry): Promise<boolean> {
    if (entry.source === null) return false;
    const twins: FileEntry[] = [];
    for (const other of this.#entries) {
      if (other !== entry && isCounted(other) && (await mayBeSameFile(entry, other))) twins.push(other);
    }
    if (entry.bytes <= hashedAtOnceBytes || twins.length > 0) await this.#hash(entry);
    for (const twin of twins) await this.#hash(twin);
    const same = twins.find(({ sha256 }) => sha256 !== null && sha256 === entry.sha256);
    if (same === undefined) return true;
    entry.status = 'duplicate';
    entry.problem = sameFileWords(same);
    // Kept by name and hash only: its bytes are those of the other.
    await this.#store.putFile(storedFileOf(entry, false)).catch(() => (this.#hasStorageFault = true));
    return false;
  }

  /** Names a file by its bytes, unless it has its name; left undone where the file is taken away meanwhile. */
  async #hash(entry: FileEntry): Promise<void> {
    if (entry.sha256 !== null || entry.source === null) return;
    const sha256 = await sha256OfBlob(entry.source, async () => {
      await this.#mayPause();
      return !entry.stopped;
    });
    if (sha256 === null) return;
    entry.sha256 = sha256;
    this.#ledger.source.setHash(entry.id, sha256);
    if (entry.account !== null) {
      entry.account = { ...entry.account, file: { ...entry.account.file, sha256 } };
    }
  }

  #fail(entry: FileEntry, problem: string): void {
    entry.status = 'failed';
    entry.problem = problem;
  }

  async #settleAndRead(entry: FileEntry): Promise<void> {
    if (entry.inspection === null) return;
    const layout = layoutFrom(entry.inspection, entry.answers);
    if ('unanswered' in layout) return;
    entry.layout = layout;
    await this.#read(entry);
    if (entry.account !== null) {
      await this.#store.putLayout(layoutKey(layout.fingerprint), {
        fingerprint: layout.fingerprint,
        layout,
        answers: entry.answers
      });
    }
  }

  async #read(entry: FileEntry): Promise<void> {
    if (entry.source === null || entry.layout === null) return;
    entry.status = 'reading';
    this.#tell();
    const { ahead } = entry;
    entry.ahead = null;
    try {
      const { account, stopped } = await readRecords({ name: entry.name, blob: entry.source }, entry.layout, {
        ahead,
        onBatch: (batch) => {
          const isFirst = entry.rowsDone === 0;
          this.#ledger.append({ id: entry.id, name: entry.name, sha256: entry.sha256 ?? '' }, batch);
          entry.rowsDone += batch.rowCount;
          this.#isBehind = true;
          // What was read before is here whole: answers of a part of it would only come in between.
          if (!isFirst || ahead !== null) return;
          const share = Math.max(entry.bytesDone, 1) / entry.bytes;
          this.#ledger.source.reserve(Math.ceil(entry.rowsDone * (roomForGuess / share - 1)));
          this.#recomputePart();
        },
        onProgress: (bytes) => this.#progress(entry, bytes, entry.rowsDone),
        shouldStop: () => entry.stopped || this.#isFull
      });
      if (this.#isFull) this.#takeBack(entry, 'tooManyRecords');
      else if (stopped === 'no') this.#settle(entry, account);
      else this.#takeBack(entry, stopped);
    } catch (error) {
      this.#takeBack(entry, 'failed');
      this.#fail(entry, wordsOf(error));
    }
    // All is answered before anything is kept: keeping takes as long as reading.
    if (this.#readingsWaiting > 1) this.#recomputePart();
    else this.#recompute();
    if (entry.account !== null) await this.#keep(entry);
    await this.#tellStorage();
  }

  get #isFull(): boolean {
    return this.#ledger.source.rowCount > (this.#options.mostRecords ?? mostRecords);
  }

  /** Takes over the account of a file that was read to its end. */
  #settle(entry: FileEntry, account: Account): void {
    entry.account = {
      ...account,
      program: this.#options.program,
      file: { ...account.file, sha256: entry.sha256 }
    };
    entry.inspection = null;
  }

  /** Takes partial answers of a file off every page. */
  #takeBack(entry: FileEntry, why: 'cancelled' | 'contradiction' | 'failed' | 'tooManyRecords'): void {
    this.#ledger.remove(entry.id);
    entry.rowsDone = 0;
    entry.account = null;
    if (why === 'cancelled') this.#fail(entry, problemWords.stopped);
    if (why === 'tooManyRecords') this.#fail(entry, problemWords.tooManyRecords);
    if (why !== 'contradiction') return;
    // The remembered layout does not fit this file: its own evidence must be gathered and a person asked.
    entry.remembered = false;
    entry.layout = null;
    entry.answers = [];
    void this.#enqueueReading(() => this.#inspectAgain(entry));
  }

  /** Looks at a file again, by its own evidence and the answers in hand. */
  async #inspectAgain(entry: FileEntry): Promise<void> {
    if (entry.source === null) return;
    entry.status = 'inspecting';
    this.#tell();
    try {
      await this.#examine(entry, entry.source, false);
    } catch (error) {
      this.#fail(entry, wordsOf(error));
    }
    this.#tell();
  }

  /**
   * Keeps a file that was read. A large one is kept as it came first, and its hash and columns follow when no other
   * file waits: after a reload in between it is read again.
   */
  async #keep(entry: FileEntry): Promise<void> {
    const { keepFiles } = this.#preferences;
    await this.#options.pause();
    if (entry.stopped) {
      await this.#giveUp(entry);
      return;
    }
    if (entry.sha256 !== null) await this.#keepWhole(entry);
    else {
      if (keepFiles) await this.#try(entry, () => this.#store.putFile(storedFileOf(entry, true)));
      void this.#enqueue(() => this.#finish(entry));
      if (!keepFiles) return;
    }
    entry.status = 'used';
  }

  /** Takes back a file that a person stopped when all of it was read. */
  async #giveUp(entry: FileEntry): Promise<void> {
    this.#takeBack(entry, 'cancelled');
    this.#recompute();
    await this.#store.removeFile(entry.id);
  }

  async #keepWhole(entry: FileEntry): Promise<void> {
    const store = this.#store;
    const { program } = this.#options;
    await this.#try(entry, async () => {
      await store.putFile(storedFileOf(entry, this.#preferences.keepFiles));
      await store.putColumns(storedColumnsOf(this.#ledger, entry.id, program));
    });
  }

  /** Hashes and keeps what was put off. Addresses of records hang on the hash, so all is answered again. */
  async #finish(entry: FileEntry): Promise<void> {
    await this.#hash(entry);
    if (entry.account === null) return;
    if (entry.stopped) {
      await this.#giveUp(entry);
      return;
    }
    const { undone, recovered } = this.#preferences;
    if (undone.length + recovered.length > 0) this.#recompute();
    else if (this.#entries.every((other) => other.sha256 !== null || other.account === null)) {
      this.#renewContext();
    }
    await this.#keepWhole(entry);
    entry.status = 'used';
    await this.#tellStorage();
  }

  /** Too large for what the browser grants, or storage is at fault: the records stay in use, and that is said. */
  async #try(entry: FileEntry, keeping: () => Promise<void>): Promise<void> {
    try {
      await keeping();
    } catch {
      entry.problem = problemWords.notKept;
    }
  }

  /** For answers of a part: left out where it would take more of the time than reading what is still to come. */
  #recomputePart(): void {
    this.#isBehind = true;
    const sinceMs = this.#options.now() - this.#recomputedAt;
    if (sinceMs >= recomputeShare * this.#recomputeMs) this.#recompute();
  }

  #recompute(): void {
    const startMs = this.#options.now();
    const { undone, recovered } = this.#preferences;
    this.#ledger.recompute(this.#settings, undone, recovered);
    this.#isBehind = false;
    this.#renewContext();
    this.#recomputedAt = this.#options.now();
    this.#recomputeMs = this.#recomputedAt - startMs;
    this.#tell();
  }

  #renewContext(): void {
    this.#version++;
    this.#lookAlikes = lookAlikesOf(this.#ledger);
    this.#aside = asideCounts(this.#ledger);
    this.#context = createContext(this.#ledger, this.#settings);
  }

  async #changed(): Promise<void> {
    this.#recompute();
    await this.#tellStorage();
  }

  async #tellStorage(): Promise<void> {
    const store = this.#store;
    this.#storage = { state: await store.state(), usedBytes: await store.usedBytes() };
    this.#tell();
  }

  async #progress(entry: FileEntry, bytes: number, rows: number): Promise<void> {
    entry.bytesDone = bytes;
    entry.rowsDone = rows;
    const now = this.#options.now();
    if (now - this.#toldAt >= progressMs) {
      this.#toldAt = now;
      this.#tell();
    }
    await this.#mayPause();
  }

  async #mayPause(): Promise<void> {
    if (this.#options.now() - this.#pausedAt < pauseMs) return;
    await this.#options.pause();
    this.#pausedAt = this.#options.now();
  }

  #tell(): void {
    this.#options.onState(this.state);
  }
}

/** True where a file's own records count or wait for an answer: a file that was not reached yet counts nowhere. */
function isCounted({ status }: FileEntry): boolean {
  return status === 'asking' || status === 'reading' || status === 'used';
}

/** A header's fingerprint names its columns: what is kept is found by a hash that names nothing. */
function layoutKey(fingerprint: string): string {
  return sha256OfText(fingerprint);
}

function faultWords({ archive, fault }: NotOpened): string {
  return archive === null ? openFaultWords[fault] : `${openFaultWords[fault]} (in ${archive})`;
}

const keptWithoutSource = 'kept without its source by another version of this program: choose the file again';
const keptOtherwise =
  'kept by another version of this program in a way that this one does not know: it is left as it is; choose the file again to read it here';
const copyWithoutSource = 'its bytes were kept once, with a file that is gone: choose the file again';

function sameFileWords({ name }: FileEntry): string {
  return `the same file as ${name}: counted once`;
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
