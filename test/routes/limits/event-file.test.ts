import { describe, expect, it } from 'vitest';
import { demoEvents, demoEventsCsv } from '#lib/demo/index.ts';
import { eventsOf, withEvents } from '../../../src/routes/limits/event-file.ts';

const header = 'time,kind,subject,code,note';
const exchange = {
  timeMs: Date.parse('2031-07-01T00:00:00Z'),
  kind: 'meterExchange',
  subject: 'vehicle',
  code: 'JDUM-R214',
  note: 'Bulk meter, exchanged'
} as const;

describe('a file of events', () => {
  it.each([
    [
      'commas and quotes',
      `${header}\r\n2031-07-01,meterExchange,vehicle,JDUM-R214,"Bulk meter, exchanged"\r\n`
    ],
    [
      'a mark of byte order',
      `\uFEFF${header}\n2031-07-01,meterExchange,vehicle,JDUM-R214,"Bulk meter, exchanged"`
    ],
    [
      'semicolons',
      `${header.replaceAll(',', ';')}\n2031-07-01;meterExchange;vehicle;JDUM-R214;Bulk meter, exchanged\n`
    ],
    [
      'tabs and words',
      `Date\tWhat\tAbout\tWhich\tRemarks\n2031-07-01T00:00Z\tMeter exchanged\tVehicle\tJDUM-R214\tBulk meter, exchanged\n`
    ],
    [
      'columns in another order',
      `code,note,subject,kind,time\nJDUM-R214,"Bulk meter, exchanged",vehicle,meterExchange,2031-07-01 00:00`
    ]
  ])('is read with %s', (_what, text) => {
    expect(eventsOf(text)).toEqual({ events: [exchange], problems: [] });
  });

  it('keeps line ends and doubled quotes of a quoted note', () => {
    const { events } = eventsOf(`${header}\n2031-07-01,other,tail,Q7-KEA,"a ""b""\nc"\n`);
    expect(events[0]?.note).toBe('a "b"\nc');
  });

  it.each([
    ['01.07.2031,meterExchange,vehicle,X,', 'Line 2: “01.07.2031” is no day as 2031-07-01.'],
    ['2031-02-31,meterExchange,vehicle,X,', 'Line 2: “2031-02-31” is no day as 2031-07-01.'],
    ['2031-07-01,exploded,vehicle,X,', 'Line 2: “exploded” is no kind of event known here.'],
    ['2031-07-01,other,planet,X,', 'Line 2: “planet” is none of station, tail, vehicle, meter, supplier.'],
    ['2031-07-01,other,tail,,', 'Line 2: whom it is about is missing.']
  ])('says what of a line was not understood: %s', (line, problem) => {
    expect(eventsOf(`${header}\n${line}\n`)).toEqual({ events: [], problems: [problem] });
  });

  it('needs a header that names its columns', () => {
    expect(eventsOf('2031-07-01,other,tail,Q7-KEA,\n').problems).toEqual([
      'The first line must name the columns; missing: time, kind, subject, code.'
    ]);
    expect(eventsOf('').problems).toHaveLength(1);
  });

  it('of the demo reads as the demo has it', () => {
    expect(eventsOf(demoEventsCsv())).toEqual({ events: demoEvents, problems: [] });
  });

  it('read twice counts once', () => {
    const once = withEvents([], demoEvents);
    expect(withEvents(once, demoEvents)).toEqual(once);
    expect(once).toHaveLength(demoEvents.length);
  });
});
