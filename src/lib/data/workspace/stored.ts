import type { Account, Layout, RememberedLayout } from '#lib/data/intake/index.ts';

function hasFormat(value: unknown, format: string): boolean {
  return typeof value === 'object' && value !== null && 'format' in value && value.format === format;
}

/** An account out of the store; null where another version of the program wrote something else. */
export function storedAccount(value: unknown): Account | null {
  return hasFormat(value, 'account/1') ? (value as Account) : null;
}

export function storedLayout(value: unknown): Layout | null {
  return hasFormat(value, 'layout/1') ? (value as Layout) : null;
}

export function storedRemembered(value: unknown): RememberedLayout | null {
  if (typeof value !== 'object' || value === null || !('layout' in value)) return null;
  return storedLayout(value.layout) === null ? null : (value as RememberedLayout);
}
