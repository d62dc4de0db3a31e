import type { Account, Layout, RememberedLayout } from '#lib/data/intake/index.ts';
import { defaultSettings, exampleLimits, type LimitSet, type Settings } from '#lib/data/settings/index.ts';
import { defaultPreferences, type Preferences } from '#lib/data/store/index.ts';

type Stored<T> = { readonly [K in keyof T]?: T[K] };

/** Settings out of the store; what an older version of the program did not know has its default. */
export function storedSettings(stored: Stored<Settings> | null): Settings {
  const { limitSets, method } = { ...defaultSettings, ...stored };
  return {
    ...defaultSettings,
    ...stored,
    method: {
      ...defaultSettings.method,
      ...method,
      arithmetic: { ...defaultSettings.method.arithmetic, ...method.arithmetic }
    },
    limitSets: limitSets.map((set: Stored<LimitSet>) => ({ ...exampleLimits, ...set }))
  };
}

export function storedPreferences(stored: Stored<Preferences> | null): Preferences {
  return { ...defaultPreferences, ...stored };
}

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
