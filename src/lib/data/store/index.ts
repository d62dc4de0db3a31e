export { browserStore } from './browser.ts';
export { memoryStore } from './memory.ts';
export { packColumns, unpackColumns } from './pack.ts';
export * from './store.ts';
