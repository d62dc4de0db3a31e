import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from 'idb';
import type { Settings } from '#lib/data/settings/index.ts';
import { memoryStore } from './memory.ts';
import type {
  FindingNote,
  Preferences,
  StorageState,
  Store,
  StoredColumn,
  StoredColumns,
  StoredFile
} from './store.ts';

/**
 * A file's columns stand in records of their own behind one that says how many: browsers bound the size of a record,
 * at 133 MB where storage is in memory only.
 */
type KeptColumns =
  | { readonly id: string; readonly program: string; readonly rows: number; readonly count: number }
  | { readonly id: string; readonly column: StoredColumn };

interface Schema extends DBSchema {
  files: { key: string; value: StoredFile };
  columns: { key: string; value: KeptColumns };
  single: { key: 'settings'; value: Settings } | { key: 'preferences'; value: Preferences };
  layouts: { key: string; value: unknown };
  notes: { key: string; value: FindingNote };
}

const databaseName = 'gaugebook';
const schemaVersion = 1;

/** The storage manager is absent in insecure contexts, whatever the type says. */
function storageManager(): StorageManager | undefined {
  return (navigator as { storage?: StorageManager }).storage;
}

function columnKey(id: string, index: number): string {
  return `${id} ${index}`;
}

/** All column records of a file: no file's own key has a blank. */
function columnKeys(id: string): IDBKeyRange {
  return IDBKeyRange.bound(`${id} `, `${id} \uffff`);
}

async function readColumns(database: IDBPDatabase<Schema>, id: string): Promise<StoredColumns | null> {
  const store = database.transaction('columns').objectStore('columns');
  const head = await store.get(id);
  if (head === undefined || !('count' in head)) return null;
  const columns: StoredColumn[] = [];
  for (let index = 0; index < head.count; index++) {
    const kept = await store.get(columnKey(id, index));
    if (kept === undefined || !('column' in kept)) return null;
    columns.push(kept.column);
  }
  return { id, program: head.program, rows: head.rows, columns };
}

type Name = StoreNames<Schema>;
type Step<Names extends readonly Name[]> = IDBPTransaction<Schema, Names, 'readwrite'>;

/** Writes all of it or, where one part fails, nothing, and throws what failed. */
async function inOneStep<Names extends readonly Name[]>(
  database: IDBPDatabase<Schema>,
  names: Names,
  parts: readonly ((step: Step<Names>) => Promise<unknown>)[]
): Promise<void> {
  const step = database.transaction(names, 'readwrite');
  // Awaited below, but it may fail while a part is still being asked for.
  step.done.catch(() => undefined);
  for (const part of parts) await part(step);
  await step.done;
}

async function writeColumns(database: IDBPDatabase<Schema>, given: StoredColumns): Promise<void> {
  const { id, program, rows, columns } = given;
  const step = database.transaction('columns', 'readwrite');
  // Awaited below, but it may fail while the columns are still being handed over.
  step.done.catch(() => undefined);
  await step.store.delete(columnKeys(id));
  let count = 0;
  for (const column of columns) await step.store.put({ id: columnKey(id, count++), column });
  await step.store.put({ id, program, rows, count });
  await step.done;
}

/** What is told while a database is open or opening. */
interface Calls {
  /** A window of an older version holds it and does not let go. */
  readonly onBlocked: () => void;
  /** Another window wanted it, for a newer version or to delete it, and was let have it. */
  readonly onLetGo: (state: StorageState) => void;
}

// Async, since some browsers refuse by throwing at once.
async function open({ onBlocked, onLetGo }: Calls): Promise<IDBPDatabase<Schema>> {
  return openDB<Schema>(databaseName, schemaVersion, {
    upgrade(database) {
      database.createObjectStore('files', { keyPath: 'id' });
      database.createObjectStore('columns', { keyPath: 'id' });
      database.createObjectStore('single');
      database.createObjectStore('layouts');
      database.createObjectStore('notes', { keyPath: 'address' });
    },
    blocked: onBlocked,
    blocking: (_current, wanted, event) => {
      (event.target as IDBDatabase).close();
      onLetGo(wanted === null ? 'thisWindowOnly' : 'keptByNewer');
    }
  });
}

/** A database that was asked for behind one that is being deleted is told nothing: longer than this is not waited. */
const longestWaitMs = 10_000;

function refusalOf(error: unknown): StorageState {
  return error instanceof DOMException && error.name === 'VersionError' ? 'keptByNewer' : 'thisWindowOnly';
}

/** The database, or why there is none. */
async function openOrNot(onLetGo: Calls['onLetGo']): Promise<IDBPDatabase<Schema> | StorageState> {
  let giveUp: () => void = () => undefined;
  const held = new Promise<'heldElsewhere'>((resolve) => {
    giveUp = () => resolve('heldElsewhere');
  });
  const timer = setTimeout(giveUp, longestWaitMs);
  const opening = open({ onBlocked: giveUp, onLetGo }).catch(refusalOf);
  const found = await Promise.race([opening, held]);
  clearTimeout(timer);
  // Opened too late it would only stand in the way of others.
  if (found === 'heldElsewhere') void opening.then((late) => typeof late === 'object' && late.close());
  return found;
}

/** Keeps things in IndexedDB; where that cannot be had, in memory for this window. */
export async function browserStore(): Promise<Store> {
  let letGo: StorageState | null = null;
  let onChanged: () => void = () => undefined;
  const database = await openOrNot((state) => {
    letGo = state;
    onChanged();
  });
  if (typeof database === 'string') return memoryStore(database);
  // Windows tell each other that something changed, never what.
  const others = new BroadcastChannel(databaseName);
  const tell = () => others.postMessage('changed');
  return {
    watch: (onChange) => {
      onChanged = onChange;
      others.onmessage = onChange;
    },
    state: async () => {
      if (letGo !== null) return letGo;
      return (await storageManager()?.persisted()) === true ? 'lasting' : 'mayBeCleared';
    },
    usedBytes: async () => (await storageManager()?.estimate())?.usage ?? null,
    files: async () => (await database.getAll('files')).sort((a, b) => a.order - b.order),
    columns: (id) => readColumns(database, id),
    putFile: async (file) => {
      await inOneStep(
        database,
        ['files', 'columns'],
        [
          (step) => step.objectStore('files').put(file),
          (step) => step.objectStore('columns').delete(file.id),
          (step) => step.objectStore('columns').delete(columnKeys(file.id))
        ]
      );
      tell();
    },
    putColumns: (columns) => writeColumns(database, columns),
    removeFile: async (id) => {
      await inOneStep(
        database,
        ['files', 'columns'],
        [
          (step) => step.objectStore('files').delete(id),
          (step) => step.objectStore('columns').delete(id),
          (step) => step.objectStore('columns').delete(columnKeys(id))
        ]
      );
      tell();
    },
    settings: async () => ((await database.get('single', 'settings')) as Settings | undefined) ?? null,
    putSettings: async (settings) => {
      await database.put('single', settings, 'settings');
      tell();
    },
    preferences: async () =>
      ((await database.get('single', 'preferences')) as Preferences | undefined) ?? null,
    putPreferences: async (preferences) => {
      await database.put('single', preferences, 'preferences');
      tell();
    },
    layout: (fingerprint) => database.get('layouts', fingerprint),
    putLayout: async (fingerprint, layout) => {
      await database.put('layouts', layout, fingerprint);
    },
    notes: () => database.getAll('notes'),
    putNote: async (note) => {
      await database.put('notes', note);
      tell();
    },
    removeNote: async (address) => {
      await database.delete('notes', address);
      tell();
    },
    clear: async () => {
      const names = ['files', 'columns', 'single', 'layouts', 'notes'] as const;
      await inOneStep(
        database,
        names,
        names.map((name) => (step) => step.objectStore(name).clear())
      );
      tell();
    }
  };
}
