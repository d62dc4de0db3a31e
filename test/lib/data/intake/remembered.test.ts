import { describe, expect, it } from 'vitest';
import type { Answer, RememberedLayout } from '#lib/data/intake/index.ts';
import { runIntake, textFile, type Given } from './run-intake.ts';

const header = 'Ticket;Local time;Station;Tail;Volume (L);Density;Water test\n';
const first = `${header}A1;27/03/2024 10:00;JARV;Q7-KEA;8000;801,5;neg\n`;
const answers: readonly Answer[] = [
  { id: 'zone', answer: 'zone:Europe/Paris' },
  { id: 'word:6:neg', answer: 'passed' }
];

async function remember(text: string, given: Given): Promise<RememberedLayout> {
  const { layout } = await runIntake(textFile(text), given);
  if (layout === null) throw new Error('the first file must have a layout');
  const { fingerprint } = layout;
  // As it comes back from a store: through JSON.
  const kept: unknown = JSON.parse(JSON.stringify({ fingerprint, layout, answers: given.answers ?? [] }));
  return kept as RememberedLayout;
}

async function second(rows: string, head = header) {
  return runIntake(textFile(head + rows), { remembered: await remember(first, { answers }) });
}

describe('a second file with the header of a remembered layout', () => {
  it('is read without a question and without a pass over its bytes', async () => {
    const { inspection, asks, rows, stopped } = await second(
      'B1;03/04/2024 10:00;JBEL;Q7-KEB;90;799,0;neg\n'
    );
    expect(asks).toEqual([]);
    expect(inspection.questions).toEqual([]);
    expect(inspection.basis).toBeNull();
    expect(stopped).toBe('no');
    expect(rows.map(({ values }) => values)).toEqual([
      {
        ticket: 'B1',
        time: '2024-04-03T08:00:00.000Z',
        station: 'JBEL',
        tail: 'Q7-KEB',
        volume: 90,
        densityObserved: 799,
        densityMethod: 'densitometer',
        waterTest: 'passed'
      }
    ]);
  });

  it('keeps the answers of the first file in its account, and nothing of its cells', async () => {
    const { account, inspection } = await second('B1;03/04/2024 10:00;JBEL;Q7-KEB;90;799,0;neg\n');
    expect(account?.questions).toContainEqual(
      expect.objectContaining({ id: 'zone', answer: 'zone:Europe/Paris' })
    );
    expect(inspection.columns.flatMap(({ samples }) => samples)).toEqual([]);
  });

  it.each([
    ['a date that fits only the other order', 'B1;03/27/2024 10:00;JBEL;Q7-KEB;90;799,0;neg\n'],
    ['a number that fits only the other decimal mark', 'B1;03/04/2024 10:00;JBEL;Q7-KEB;90;799.05;neg\n'],
    ['a density of the size of another unit', 'B1;03/04/2024 10:00;JBEL;Q7-KEB;90;0,799;neg\n'],
    ['a day number where dates were', 'B1;45355,5;JBEL;Q7-KEB;90;799,0;neg\n']
  ])('stops at %s', async (_, row) => {
    const good = 'B0;03/04/2024 10:00;JBEL;Q7-KEB;90;799,0;neg\n';
    expect((await second(good + row + good)).stopped).toBe('contradiction');
  });

  it('sets a record with a new word aside instead of guessing what it means', async () => {
    const { account, stopped } = await second('B1;03/04/2024 10:00;JBEL;Q7-KEB;90;799,0;haze\n');
    expect(stopped).toBe('no');
    expect(account?.records.slice(1)).toMatchObject([
      { fate: 'setAside', code: 'wordUnknown', value: 'haze' }
    ]);
  });

  it('is asked about afresh where its row of units is another', async () => {
    const head = 'Ticket;Time;Station;Tail;Volume\n';
    const inLitres = `${head};UTC;;;L\nA1;2024-03-04T10:00Z;JARV;Q7-KEA;8000\n`;
    const inGallons = `${head};UTC;;;USG\nA1;2024-03-04T10:00Z;JARV;Q7-KEA;8000\n`;
    const run = await runIntake(textFile(inGallons), { remembered: await remember(inLitres, {}) });
    expect(run.inspection.remembered).toBeNull();
    expect(run.rows[0]?.values.volume).toBe(8000 * 3.785411784);
  });

  it('is never taken for known where it has no header', async () => {
    const bare = 'A1,2024-03-04T10:00Z,JARV,Q7-KEA,8000.5\n';
    const mapped = ['time:1', 'station:2', 'tail:3', 'volume:4'].map((pair) => {
      const [field = '', column = ''] = pair.split(':');
      return { id: `field:${field}`, answer: column };
    });
    const kept = await remember(bare, { answers: [...mapped, { id: 'unit:4', answer: 'litre' }] });
    expect((await runIntake(textFile(bare), { remembered: kept })).inspection.remembered).toBeNull();
  });

  it('reads Windows-1252 found past the head as a contradiction, not as a wrong text', async () => {
    const kept = await remember(first, { answers });
    const row = 'B1;03/04/2024 10:00;JBEL;Q7-KEB;90;799,0;neg\n';
    const bytes = Buffer.from(header + row.repeat(3000) + row.replace('JBEL', 'J\u00c9'), 'latin1');
    expect((await runIntake(new Blob([bytes]), { remembered: kept })).stopped).toBe('contradiction');
  });
});

describe('a layout whose numbers never had a mark', () => {
  const head = 'Ticket;Time (UTC);Station;Tail;Volume (L)\n';
  const rowOf = (volume: string) => `A1;2024-03-04T10:00Z;JARV;Q7-KEA;${volume}\n`;

  it.each(['1.234', '1,234', '12.5', '12,5'])(
    'does not read %s in a later file on its own',
    async (volume) => {
      const kept = await remember(head + rowOf('8000'), {});
      const run = await runIntake(textFile(head + rowOf('90') + rowOf(volume)), { remembered: kept });
      expect(run.stopped).toBe('contradiction');
    }
  );

  it('reads further whole numbers', async () => {
    const kept = await remember(head + rowOf('8000'), {});
    const run = await runIntake(textFile(head + rowOf('90') + rowOf('12 345')), { remembered: kept });
    expect(run.stopped).toBe('no');
    expect(run.rows.map(({ values }) => values.volume)).toEqual([90, 12345]);
  });
});

describe('a layout whose times all had their offset', () => {
  const head = 'Ticket;End;Station;Tail;Volume (L)\n';
  const rowOf = (time: string) => `A1;${time};JARV;Q7-KEA;8000\n`;

  it('stops at a time without one instead of taking it for UTC', async () => {
    const kept = await remember(head + rowOf('2024-03-04T10:00+02:00'), {});
    const run = await runIntake(textFile(head + rowOf('2024-03-05T10:00Z') + rowOf('2024-03-06T10:00')), {
      remembered: kept
    });
    expect(run.stopped).toBe('contradiction');
  });

  it('refuses a date without a clock', async () => {
    const kept = await remember(head + rowOf('2024-03-04T10:00+02:00'), {});
    const run = await runIntake(textFile(head + rowOf('2024-03-05T10:00Z') + rowOf('2024-03-06')), {
      remembered: kept
    });
    expect(run.account?.records.map(({ line, code }) => [line, code])).toEqual([
      [1, 'header'],
      [3, 'noClock']
    ]);
  });
});

describe('reading that is stopped', () => {
  it('says that it was cancelled and hands out no account of a whole file', async () => {
    const { inspect, layoutFrom, readRecords } = await import('#lib/data/intake/index.ts');
    const source = { name: 'x.csv', blob: textFile(first) };
    const inspection = await inspect(source, { remembered: () => Promise.resolve(null), stations: [] });
    const layout = layoutFrom(inspection, answers);
    if ('unanswered' in layout) throw new Error('must be answered');
    const { stopped } = await readRecords(source, layout, {
      onBatch: () => undefined,
      shouldStop: () => true
    });
    expect(stopped).toBe('cancelled');
  });
});
