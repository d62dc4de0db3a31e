import type { Settings } from '#lib/data/settings/index.ts';
import type { FindingNote, Preferences, StorageState, Store, StoredColumns, StoredFile } from './store.ts';

/** Keeps things for this window only: private windows, refused storage, tests. `state` says why. */
export function memoryStore(state: StorageState = 'thisWindowOnly'): Store {
  const files = new Map<string, StoredFile>();
  const columns = new Map<string, StoredColumns>();
  const layouts = new Map<string, unknown>();
  const notes = new Map<string, FindingNote>();
  let settings: Settings | null = null;
  let preferences: Preferences | null = null;
  return {
    state: () => Promise.resolve(state),
    usedBytes: () => Promise.resolve(null),
    files: () => Promise.resolve([...files.values()].sort((a, b) => a.order - b.order)),
    columns: (id) => Promise.resolve(columns.get(id) ?? null),
    putFile: (file) => {
      files.set(file.id, file);
      columns.delete(file.id);
      return Promise.resolve();
    },
    putColumns: (given) => {
      columns.set(given.id, { ...given, columns: [...given.columns] });
      return Promise.resolve();
    },
    removeFile: (id) => {
      files.delete(id);
      columns.delete(id);
      return Promise.resolve();
    },
    settings: () => Promise.resolve(settings),
    putSettings: (given) => {
      settings = given;
      return Promise.resolve();
    },
    preferences: () => Promise.resolve(preferences),
    putPreferences: (given) => {
      preferences = given;
      return Promise.resolve();
    },
    layout: (fingerprint) => Promise.resolve(layouts.get(fingerprint) ?? null),
    putLayout: (fingerprint, layout) => {
      layouts.set(fingerprint, layout);
      return Promise.resolve();
    },
    notes: () => Promise.resolve([...notes.values()]),
    putNote: (note) => {
      notes.set(note.address, note);
      return Promise.resolve();
    },
    removeNote: (address) => {
      notes.delete(address);
      return Promise.resolve();
    },
    watch: () => undefined,
    clear: () => {
      files.clear();
      columns.clear();
      layouts.clear();
      notes.clear();
      settings = null;
      preferences = null;
      return Promise.resolve();
    }
  };
}
