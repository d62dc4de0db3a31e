import type { Store } from '#lib/data/store/index.ts';

/**
 * A store whose faults stop nothing: what cannot be read is as if it were not there, and what cannot be written is
 * told to `onFault`, while the program goes on with what it has in hand. Keeping a file throws on: its page says so.
 */
export function carefulStore(store: Store, onFault: (error: unknown) => void): Store {
  async function or<T>(instead: T, call: () => Promise<T>): Promise<T> {
    try {
      return await call();
    } catch (error) {
      onFault(error);
      return instead;
    }
  }
  return {
    state: () => or('thisWindowOnly', store.state),
    usedBytes: () => or(null, store.usedBytes),
    files: () => or([], store.files),
    columns: (id) => or(null, () => store.columns(id)),
    putFile: store.putFile,
    putColumns: store.putColumns,
    removeFile: (id) => or(undefined, () => store.removeFile(id)),
    settings: () => or(null, store.settings),
    putSettings: (settings) => or(undefined, () => store.putSettings(settings)),
    preferences: () => or(null, store.preferences),
    putPreferences: (preferences) => or(undefined, () => store.putPreferences(preferences)),
    layout: (fingerprint) => or(null, () => store.layout(fingerprint)),
    putLayout: (fingerprint, layout) => or(undefined, () => store.putLayout(fingerprint, layout)),
    notes: () => or([], store.notes),
    putNote: (note) => or(undefined, () => store.putNote(note)),
    removeNote: (address) => or(undefined, () => store.removeNote(address)),
    watch: store.watch,
    clear: () => or(undefined, store.clear)
  };
}
