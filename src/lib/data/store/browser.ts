import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Settings } from '#lib/data/settings/index.ts';
import { memoryStore } from './memory.ts';
import type { Preferences, Store, StoredColumns, StoredFile, FindingNote } from './store.ts';

interface Schema extends DBSchema {
  files: { key: string; value: StoredFile };
  columns: { key: string; value: StoredColumns };
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

function open(onBlocked: () => void): Promise<IDBPDatabase<Schema>> {
  return openDB<Schema>(databaseName, schemaVersion, {
    upgrade(database) {
      database.createObjectStore('files', { keyPath: 'id' });
      database.createObjectStore('columns', { keyPath: 'id' });
      database.createObjectStore('single');
      database.createObjectStore('layouts');
      database.createObjectStore('notes', { keyPath: 'address' });
    },
    blocked: onBlocked,
    blocking: (_current, _blocked, event) => {
      // A newer page waits for this one to let go of the database.
      (event.target as IDBDatabase).close();
    }
  });
}

/** Keeps things in IndexedDB; where the browser refuses it, in memory for this window. */
export async function browserStore(onBlocked: () => void = () => undefined): Promise<Store> {
  let database: IDBPDatabase<Schema>;
  try {
    database = await open(onBlocked);
  } catch {
    return memoryStore();
  }
  return {
    state: async () => ((await storageManager()?.persisted()) === true ? 'lasting' : 'mayBeCleared'),
    usedBytes: async () => (await storageManager()?.estimate())?.usage ?? null,
    files: async () => (await database.getAll('files')).sort((a, b) => a.order - b.order),
    columns: async (id) => (await database.get('columns', id)) ?? null,
    putFile: async (file, columns) => {
      const step = database.transaction(['files', 'columns'], 'readwrite');
      await Promise.all([
        step.objectStore('files').put(file),
        step.objectStore('columns').put(columns),
        step.done
      ]);
    },
    removeFile: async (id) => {
      const step = database.transaction(['files', 'columns'], 'readwrite');
      await Promise.all([
        step.objectStore('files').delete(id),
        step.objectStore('columns').delete(id),
        step.done
      ]);
    },
    settings: async () => ((await database.get('single', 'settings')) as Settings | undefined) ?? null,
    putSettings: async (settings) => {
      await database.put('single', settings, 'settings');
    },
    preferences: async () =>
      ((await database.get('single', 'preferences')) as Preferences | undefined) ?? null,
    putPreferences: async (preferences) => {
      await database.put('single', preferences, 'preferences');
    },
    layout: (fingerprint) => database.get('layouts', fingerprint),
    putLayout: async (fingerprint, layout) => {
      await database.put('layouts', layout, fingerprint);
    },
    notes: () => database.getAll('notes'),
    putNote: async (note) => {
      await database.put('notes', note);
    },
    removeNote: (address) => database.delete('notes', address),
    clear: async () => {
      const names = ['files', 'columns', 'single', 'layouts', 'notes'] as const;
      const step = database.transaction(names, 'readwrite');
      await Promise.all([...names.map((name) => step.objectStore(name).clear()), step.done]);
    }
  };
}
