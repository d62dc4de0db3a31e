import { readdirSync, readFileSync, existsSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Answer } from '#lib/data/intake/index.ts';
import type { StationEntry } from '#lib/data/settings/index.ts';
import { runIntake, type Given } from './run-intake.ts';

const folder = new URL('../../../corpus/', import.meta.url);
/** Set to write the expected files anew; each of them has to be read and understood before it is kept. */
const isWriting = process.env.CORPUS_WRITE === '1';

interface GivenFile {
  readonly answers?: readonly Answer[];
  readonly stations?: readonly StationEntry[];
}

function given(name: string): GivenFile {
  const path = new URL(`${name}.answers.json`, folder);
  return existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as GivenFile) : {};
}

const names = readdirSync(folder)
  .filter((file) => file.endsWith('.csv'))
  .map((file) => file.slice(0, -4));

async function outcome(name: string, how: Pick<Given, 'readsAhead' | 'inTwo'> = {}) {
  const blob = new Blob([readFileSync(new URL(`${name}.csv`, folder))]);
  const { inspection, asks, account, rows } = await runIntake(blob, { ...given(name), ...how });
  return { problem: inspection.problem, asks, account, rows };
}

describe('the corpus of files', () => {
  it('holds at least 120 files', () => expect(names.length).toBeGreaterThanOrEqual(120));

  it.each(names)('%s has the account that was thought out for it', async (name) => {
    const found: unknown = JSON.parse(JSON.stringify(await outcome(name)));
    const path = new URL(`${name}.account.json`, folder);
    if (isWriting) writeFileSync(path, `${JSON.stringify(found, null, 1)}\n`);
    expect(found).toEqual(JSON.parse(readFileSync(path, 'utf8')));
  });

  it.each(names)(
    '%s is read the same while it is looked at, elsewhere or here, as after it',
    async (name) => {
      const found = await outcome(name);
      expect(await outcome(name, { readsAhead: false })).toEqual(found);
      expect(await outcome(name, { inTwo: true })).toEqual(found);
    }
  );

  it.each(names)('%s has counts that add up to its records', async (name) => {
    const { account } = await outcome(name);
    if (account === null) return;
    const { records, header, used, setAside, refused, skipped } = account.counts;
    expect(header + used + setAside + refused + skipped).toBe(records);
    expect(account.records.length).toBe(records - used);
  });
});
