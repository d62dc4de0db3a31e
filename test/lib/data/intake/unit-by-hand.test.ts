import { describe, expect, it } from 'vitest';
import { runIntake, textFile } from './run-intake.ts';

const lines = (volume: string, more = '') =>
  `Ticket,End (UTC),Station,Tail,${volume}${more}\nA,2024-03-04T10:00Z,J,Q,`;

describe('the unit of a column chosen by hand', () => {
  const rows: readonly (readonly [what: string, text: string, answer: string, litres: number])[] = [
    ['stands over the header', `${lines('Volume (L)')}2000\n`, 'usGallon', 2000 * 3.785411784],
    ['may be one that is not asked about', `${lines('Volume')}20\n`, 'hectolitre', 2000],
    [
      'stands over a column of units',
      `${lines('Volume', ',Unit')}2000,L\n`,
      'imperialGallon',
      2000 * 4.54609
    ],
    ['is left by no unit at all', `${lines('Volume (L)')}2000\n`, '', 2000],
    ['is no unit of another quantity', `${lines('Volume (L)')}2000\n`, 'kilogram', 2000]
  ];

  it.each(rows)('%s', async (_, text, answer, litres) => {
    const run = await runIntake(textFile(text), { answers: [{ id: 'unit:4', answer }] });
    expect(Number(run.rows[0]?.values.volume)).toBeCloseTo(litres, 9);
    const finding = run.layout?.findings[4];
    const isTaken = answer !== '' && answer !== 'kilogram';
    expect(finding?.unitFrom).toBe(isTaken ? 'answer' : 'header');
    expect(run.layout?.questions).toContainEqual(expect.objectContaining({ id: 'unit:4', answer }));
  });

  it('holds for one tank, while the others are still asked about', async () => {
    const text =
      'Ticket,End (UTC),Station,Tail,Volume (L),Left tank before,Right tank before\nA,2024-03-04T10:00Z,J,Q,2000,1000,1000\n';
    const one = await runIntake(textFile(text), { answers: [{ id: 'unit:5', answer: 'pound' }] });
    expect(one.layout).toBeNull();
    expect(one.asks).toEqual(['unit:tanks']);
    const both = await runIntake(textFile(text), {
      answers: [
        { id: 'unit:5', answer: 'pound' },
        { id: 'unit:tanks', answer: 'kilogram' }
      ]
    });
    expect(both.rows[0]?.values).toMatchObject({
      'tanksBefore:left': 453.59237,
      'tanksBefore:right': 1000
    });
  });
});
