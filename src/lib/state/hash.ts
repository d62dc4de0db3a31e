import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { writeFilter } from './filter.ts';

/** What stands after the `#`: the filter, then page options by name, empty ones left out. */
export function hashOf(filter: RecordFilter, options: Readonly<Record<string, string>>): string {
  const parameters = new URLSearchParams();
  writeFilter(filter, parameters);
  for (const key of Object.keys(options).sort()) {
    const value = options[key] ?? '';
    if (value !== '') parameters.set(key, value);
  }
  const text = parameters.toString();
  return text === '' ? '' : `#${text}`;
}

export function parametersOf(hash: string): URLSearchParams {
  return new URLSearchParams(hash.slice(1));
}

/** The page options among parameters: those that are no part of the filter. */
export function optionsOf(parameters: URLSearchParams, filter: RecordFilter): Record<string, string> {
  const filterKeys = new URLSearchParams();
  writeFilter(filter, filterKeys);
  return Object.fromEntries([...parameters].filter(([key]) => !filterKeys.has(key)));
}
