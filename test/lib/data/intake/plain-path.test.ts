import { describe, expect, it } from 'vitest';
import type { ColumnSet } from '#lib/data/columns/index.ts';
import { inspect, layoutFrom, readRecords, type Answer, type Layout } from '#lib/data/intake/index.ts';

async function intake(text: string, answers: readonly Answer[] = []) {
  const source = { name: 'test.csv', blob: new Blob([text]) };
  const inspection = await inspect(source, {
    remembered: () => Promise.resolve(null),
    stations: [],
    answers
  });
  const layout = layoutFrom(inspection, answers);
  if ('unanswered' in layout)
    return { inspection, layout: null, unsettled: layout, result: null, batches: [] };
  const batches: ColumnSet[] = [];
  const result = await readRecords(source, layout satisfies Layout, {
    onBatch: (batch) => batches.push(batch)
  });
  return { inspection, layout, unsettled: null, result, batches };
}

const plain = [
  'Ticket,Fuelling end (UTC),Station,Registration,Volume (L),Density (kg/m3),Sample temp (°C),Fuel temp (°C),Arrival fuel (kg),Departure fuel (kg)',
  '000123,2024-03-04T14:30:00Z,JARV,Q7-KEA,8000.5,801.2,15.0,16.5,3200,9600',
  '000124,2024-03-04 16:05Z,JBEL,Q7-KEB,4100,798.4,18.2,19,2100,5360'
].join('\r\n');

describe('a plain file of English headers with units', () => {
  it('is read without a question', async () => {
    const { inspection, result, batches } = await intake(plain);
    expect(inspection.problem).toBeNull();
    expect(inspection.questions.filter(({ byDefault }) => byDefault === null)).toEqual([]);
    expect(result?.stopped).toBe('no');
    expect(result?.account.counts).toEqual({
      lines: 3,
      records: 3,
      header: 1,
      used: 2,
      setAside: 0,
      refused: 0,
      skipped: 0
    });
    const [batch] = batches;
    expect([...(batch?.number('volume').values() ?? [])]).toEqual([8000.5, 4100]);
    expect([...(batch?.number('time').values() ?? [])]).toEqual([
      Date.UTC(2024, 2, 4, 14, 30),
      Date.UTC(2024, 2, 4, 16, 5)
    ]);
    expect(batch?.text('ticket').at(0)).toBe('000123');
    expect(batch?.code('tail').text(1)).toBe('Q7-KEB');
    expect([...(batch?.number('#line').values() ?? [])]).toEqual([2, 3]);
  });

  it('asks nothing and reads the same with semicolons and decimal commas', async () => {
    const commas = plain.replaceAll(',', ';').replaceAll(/(\d)\.(\d)/g, '$1,$2');
    const { inspection, batches } = await intake(commas);
    expect(inspection.delimiter).toBe(';');
    expect(inspection.questions.filter(({ byDefault }) => byDefault === null)).toEqual([]);
    expect([...(batches[0]?.number('densityObserved').values() ?? [])]).toEqual([801.2, 798.4]);
  });
});
