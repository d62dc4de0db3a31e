import { describe, expect, it } from 'vitest';
import { inspect, layoutFrom, readRecords, type ReadAhead } from '#lib/data/intake/index.ts';
import { runIntake } from './run-intake.ts';

const header =
  'Ticket,End time (UTC),Station,Tail,Volume (L),Density (kg/m3),Arrival fuel (kg),Departure fuel (kg),Water test';

/** A file longer than the part that its layout is foreseen from. */
function longFile(change: (cells: string[], row: number) => unknown = () => undefined): string {
  const lines = Array.from({ length: 20_000 }, (_, row) => {
    const time = new Date(Date.UTC(2025, 0, 1) + row * 60_000).toISOString();
    const cells = [
      `T${row}`,
      time,
      'JARV',
      'Q7-KEA',
      `${2000 + (row % 900)}`,
      '801.5',
      '2000',
      '3700',
      'passed'
    ];
    change(cells, row);
    return cells.join(',');
  });
  return [header, ...lines].join('\n') + '\n';
}

/** Looks at a file, then reads it, and tells how many bytes were asked for at each. */
async function bytesAsked(text: string): Promise<{ looking: number; reading: number; used: number }> {
  let asked = 0;
  class Counted extends Blob {
    override slice(from?: number, to?: number): Blob {
      const part = super.slice(from, to);
      asked += part.size;
      return part;
    }
  }
  const source = { name: 'file.csv', blob: new Counted([text]) };
  let ahead: ReadAhead | null = null;
  const inspection = await inspect(source, {
    remembered: () => Promise.resolve(null),
    stations: [],
    onAhead: (read) => (ahead = read)
  });
  const looking = asked;
  const answers = inspection.questions.flatMap(({ id, byDefault, readings: [reading] }) =>
    reading === undefined || byDefault !== null ? [] : [{ id, answer: reading.id }]
  );
  const layout = layoutFrom(inspection, answers);
  if ('unanswered' in layout) throw new Error(`unanswered: ${layout.unanswered.join()}`);
  const { account } = await readRecords(source, layout, { ahead, onBatch: () => undefined });
  return { looking, reading: asked - looking, used: account.counts.used };
}

describe('reading ahead', () => {
  it('leaves no byte to read where a part of the file told how the whole is read', async () => {
    const { reading, used } = await bytesAsked(longFile());
    expect(used).toBe(20_000);
    expect(reading).toBe(0);
  });

  it('counts for nothing where the rest of the file is read in another way', async () => {
    // A word that the part does not have.
    const text = longFile((cells, row) => row === 12_345 && (cells[8] = 'failed'));
    const { reading, used } = await bytesAsked(text);
    expect(reading).toBeGreaterThanOrEqual(text.length);
    expect(used).toBe(20_000);
    const run = await runIntake(new Blob([text]));
    expect(run.rows).toHaveLength(20_000);
    expect(run).toEqual(await runIntake(new Blob([text]), { readsAhead: false }));
  });
});
