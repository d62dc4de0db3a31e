import { expect } from 'vitest';
import type { IntakeRun } from './run-intake.ts';

/** Fails unless the fates of an account add up to the records read. */
export function expectBalance({ account }: IntakeRun): void {
  if (account === null) return;
  const { records: all, header, used, setAside, refused, skipped } = account.counts;
  expect(header + used + setAside + refused + skipped).toBe(all);
  expect(account.records.length).toBe(all - used);
}
