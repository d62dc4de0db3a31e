import { describe, expect, it } from 'vitest';
import { readEvents } from '#lib/data/intake/index.ts';
import { textFile } from './run-intake.ts';

const header = 'time,kind,subject,code,note\n';

describe('a file of events', () => {
  it('reads instants with an offset and dates alone', async () => {
    const text = `${header}2024-03-04T10:00:00.000Z,meterExchange,vehicle,JARV-H207,"new, by hand"\n2024-03-05,meter exchange,Meter,M1,\n`;
    expect(await readEvents(textFile(text))).toEqual({
      events: [
        {
          timeMs: Date.UTC(2024, 2, 4, 10),
          kind: 'meterExchange',
          subject: 'vehicle',
          code: 'JARV-H207',
          note: 'new, by hand'
        },
        { timeMs: Date.UTC(2024, 2, 5), kind: 'meterExchange', subject: 'meter', code: 'M1', note: '' }
      ],
      faults: []
    });
  });

  it.each([
    ['03/04/2024', 'gaugeWork', 'tail', 'Q7-KEA', 'badTime'],
    ['2024-02-31', 'gaugeWork', 'tail', 'Q7-KEA', 'badTime'],
    ['2024-03-04 10:00', 'gaugeWork', 'tail', 'Q7-KEA', 'badTime'],
    ['04-03-24', 'gaugeWork', 'tail', 'Q7-KEA', 'badTime'],
    ['2024-03-04', 'party', 'tail', 'Q7-KEA', 'unknownKind'],
    ['2024-03-04', '__proto__', 'tail', 'Q7-KEA', 'unknownKind'],
    ['2024-03-04', 'gaugeWork', 'crew', 'Q7-KEA', 'unknownSubject'],
    ['2024-03-04', 'gaugeWork', 'tail', ' ', 'noCode']
  ])('refuses %s, %s, %s, %s in words: %s', async (time, kind, subject, code, fault) => {
    const { events, faults } = await readEvents(textFile(`${header}${time},${kind},${subject},${code},\n`));
    expect(events).toEqual([]);
    expect(faults.map(({ line, code: found }) => [line, found])).toEqual([[2, fault]]);
  });

  it('says so where there is no header', async () => {
    expect((await readEvents(textFile('a,b\n1,2\n'))).faults).toMatchObject([{ line: 1, code: 'noHeader' }]);
    expect((await readEvents(textFile(''))).faults).toMatchObject([{ line: 1, code: 'noHeader' }]);
  });
});
