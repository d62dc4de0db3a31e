import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectBalance } from './balance.ts';
import { runIntake, textFile } from './run-intake.ts';
import { isoNotation, notation, record, records, tableLines, tenths, valuesOf } from './tables.ts';

describe('any bytes', () => {
  const chunk = fc.oneof(
    fc.constantFrom(
      '"',
      ',',
      ';',
      '\t',
      '|',
      '\r',
      '\n',
      '\r\n',
      '\0',
      '\ufeff',
      'Tail',
      'Station',
      'Time',
      '1,5',
      '=1'
    ),
    fc.string({ unit: 'binary', maxLength: 6 }),
    fc.constantFrom('__proto__', 'constructor', 'toString', 'Volume (L)', '2024-03-04T10:00Z', '27/03/2024')
  );
  const bytes = fc.oneof(
    fc.array(chunk, { maxLength: 120 }).map((parts) => new TextEncoder().encode(parts.join(''))),
    fc.uint8Array({ maxLength: 400 })
  );

  it('end in a report that adds up, never in an error', async () => {
    await fc.assert(
      fc.asyncProperty(bytes, async (data) => {
        const run = await runIntake(new Blob([new Uint8Array(data)]));
        expectBalance(run);
        const answers = run.inspection.questions.flatMap(({ id, readings: [first] }) =>
          first === undefined ? [] : [{ id, answer: first.id }]
        );
        expectBalance(await runIntake(new Blob([new Uint8Array(data)]), { answers }));
      }),
      { numRuns: 150 }
    );
  });

  it('leave the built-in prototypes as they were', async () => {
    const before = Object.getOwnPropertyNames(Object.prototype).concat(
      Object.getOwnPropertyNames(Array.prototype)
    );
    const dangerous = fc.constantFrom(
      '__proto__',
      'constructor',
      'toString',
      'valueOf',
      'hasOwnProperty',
      'x'
    );
    await fc.assert(
      fc.asyncProperty(fc.array(dangerous, { minLength: 3, maxLength: 9 }), async (names) => {
        const line = names.join(',');
        const table = tableLines([], isoNotation).map((header) => `${header},${line}`);
        const row = `A1,2024-03-04 10:00,${names[0]},${names[1]},8000,800.5,${line}`;
        const { rows } = await runIntake(textFile([...table, row].join('\n')));
        expect(rows[0]?.values).toMatchObject({ station: names[0], tail: names[1] });
      }),
      { numRuns: 40 }
    );
    const after = Object.getOwnPropertyNames(Object.prototype).concat(
      Object.getOwnPropertyNames(Array.prototype)
    );
    expect(after).toEqual(before);
  });
});

describe('a good table in any notation', () => {
  it('is read to the same values, or a question is asked: never to others', async () => {
    let read = 0;
    await fc.assert(
      fc.asyncProperty(records, notation, async (rows, written) => {
        const run = await runIntake(textFile(tableLines(rows, written).join('\n')));
        if (run.asks.length > 0) return;
        read++;
        expect(run.rows.map(({ values }) => values)).toEqual(rows.map(valuesOf));
      }),
      { numRuns: 100 }
    );
    // Most tables hold their own proof, so most runs compare values.
    expect(read).toBeGreaterThan(50);
  });

  it('asks about the order of dates exactly where no date proves it', async () => {
    await fc.assert(
      fc.asyncProperty(records, fc.constantFrom('dmy' as const, 'mdy' as const), async (rows, order) => {
        const run = await runIntake(textFile(tableLines(rows, { ...isoNotation, order }).join('\n')));
        const days = rows.map(({ timeMs }) => new Date(timeMs).getUTCDate());
        const months = rows.map(({ timeMs }) => new Date(timeMs).getUTCMonth() + 1);
        const isProven = days.some((day) => day > 12);
        const isSame = days.every((day, i) => day === months[i]);
        expect(run.asks.some((id) => id.startsWith('dateOrder'))).toBe(!isProven && !isSame);
      }),
      { numRuns: 80 }
    );
  });

  it('is read the same in batches of any size', async () => {
    await fc.assert(
      fc.asyncProperty(records, fc.integer({ min: 1, max: 5 }), async (rows, batchRows) => {
        const file = textFile(tableLines(rows, isoNotation).join('\n'));
        const whole = await runIntake(file);
        const parts = await runIntake(file, { batchRows });
        expect(parts.rows).toEqual(whole.rows);
        expect(parts.account).toEqual(whole.account);
      }),
      { numRuns: 40 }
    );
  });

  it('names the line of each record as counted in the bytes', async () => {
    const remark = fc.constantFrom('ok', 'two\nlines', 'three\r\nlines\r\nhere', 'a\rb', '');
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(record, remark), { minLength: 1, maxLength: 8 }), async (pairs) => {
        const [header = '', ...lines] = tableLines(
          pairs.map(([row]) => row),
          isoNotation
        );
        let line = 2;
        const expected: number[] = [];
        for (const [, text] of pairs) {
          expected.push(line);
          line += 1 + (text.match(/\r\n|\r|\n/g) ?? []).length;
        }
        const body = lines.map((cells, i) => `${cells},"${pairs[i]?.[1] ?? ''}"`);
        const { rows } = await runIntake(textFile([`${header},Remarks`, ...body].join('\n')));
        expect(rows.map((row) => row.line)).toEqual(expected);
      }),
      { numRuns: 60 }
    );
  });
});

describe('evidence', () => {
  const file = (volumes: readonly string[]) =>
    textFile(
      [
        'Ticket;Time (UTC);Station;Tail;Volume (L)',
        ...volumes.map((v) => `A;2024-03-04T10:00Z;J;Q;${v}`)
      ].join('\n')
    );

  it('keeps its reading when a record that agrees is added', async () => {
    let compared = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 1, max: 9_999_999 }), { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 1, max: 9_999_999 }),
        notation,
        async (values, more, written) => {
          const texts = values.map((value) => tenths(value, written));
          const added = tenths(more, written);
          const before = await runIntake(file(texts));
          // A first mark in the column is no agreement with what was read without any.
          const isProven = texts.some((text) => /[^0-9]/.test(text)) || !/[^0-9]/.test(added);
          if (before.asks.length > 0 || !isProven) return;
          compared++;
          const after = await runIntake(file([...texts, added]));
          expect(after.asks).toEqual([]);
          expect(after.rows.slice(0, -1)).toEqual(before.rows);
          expect(after.rows.at(-1)?.values.volume).toBe(more / 10);
        }
      ),
      { numRuns: 100 }
    );
    expect(compared).toBeGreaterThan(30);
  });

  it('asks, or says so, when a record is added that fits only the other reading', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 1, max: 999_999 }), { minLength: 1, maxLength: 8 }),
        fc.constantFrom('1.234,5', '0,25', '12,5'),
        async (values, odd) => {
          const texts = values.map((value) => tenths(value, { ...isoNotation, group: ',' }));
          if (!texts.some((text) => text.includes('.'))) return;
          expect((await runIntake(file([...texts, odd]))).asks).toContain('decimal:4');
        }
      ),
      { numRuns: 60 }
    );
  });

  it('asks, or says so, where a table of one country goes on in the notation of another', async () => {
    const fraction = fc.integer({ min: 0, max: 99_999 }).map((whole) => whole * 10 + 5);
    const some = fc.array(fraction, { minLength: 1, maxLength: 6 });
    const mark = fc.constantFrom('.' as const, ',' as const);
    await fc.assert(
      fc.asyncProperty(some, some, mark, fc.boolean(), async (first, then, decimal, isGrouped) => {
        const other = decimal === '.' ? ',' : '.';
        const here = { ...isoNotation, decimal, group: isGrouped ? other : '' } as const;
        const there = { ...isoNotation, decimal: other, group: isGrouped ? decimal : '' } as const;
        const texts = [
          ...first.map((value) => tenths(value, here)),
          ...then.map((value) => tenths(value, there))
        ];
        const { asks, inspection } = await runIntake(file(texts));
        expect(asks).toContain('decimal:4');
        expect(inspection.notes.map(({ code }) => code)).toContain('mixedMarks');
      }),
      { numRuns: 60 }
    );
  });

  it('asks, or refuses the record, when the size of one density fits only another unit', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 7700, max: 8300 }), { minLength: 1, maxLength: 3 }),
        fc.constantFrom('0.8', '0.795', '6.7'),
        async (tenthsKgM3, odd) => {
          const rows = [...tenthsKgM3.map((value) => String(value / 10)), odd].map(
            (density, i) => `A${i},2024-03-04T10:0${i}Z,J,Q,8000,${density}`
          );
          const run = await runIntake(
            textFile(['Ticket,End (UTC),Station,Tail,Volume (L),Density', ...rows].join('\n'))
          );
          const asked = run.asks.some((id) => id.startsWith('unit'));
          const read = run.rows.some(({ values }) => Number(values.densityObserved) < 100);
          expect(
            asked || (run.account?.counts.refused ?? 0) > 0 || (run.account?.notes.length ?? 0) > 0
          ).toBe(true);
          expect(read).toBe(false);
        }
      ),
      { numRuns: 40 }
    );
  });
});

describe('an instant', () => {
  const two = (value: number) => String(value).padStart(2, '0');
  const months = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');
  /** Ways to write a local time that cannot be misread, with the offset behind it. */
  const patterns: readonly ((local: Date, offset: string) => string)[] = [
    (local, offset) => `${local.toISOString().slice(0, 19)}${offset}`,
    (local, offset) => `${local.toISOString().slice(0, 19).replace('T', ' ')} ${offset}`,
    (local, offset) => local.toISOString().slice(0, 19).replace(/[-:]/g, '') + offset.replace(':', ''),
    (local, offset) =>
      `${local.getUTCDate()} ${months[local.getUTCMonth()] ?? ''} ${local.getUTCFullYear()} ` +
      `${two(local.getUTCHours())}:${two(local.getUTCMinutes())}:${two(local.getUTCSeconds())}${offset}`
  ];

  it('is read from any pattern and offset as the same instant', async () => {
    const offset = fc.integer({ min: -12 * 4, max: 14 * 4 }).map((quarters) => quarters * 15);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.integer({ min: 315_700_000, max: 4_000_000_000 }), offset), {
          minLength: 1,
          maxLength: 6
        }),
        fc.constantFrom(...patterns),
        async (instants, pattern) => {
          const lines = instants.map(([second, minutes]) => {
            const ahead = `${minutes < 0 ? '-' : '+'}${two(Math.floor(Math.abs(minutes) / 60))}:${two(Math.abs(minutes) % 60)}`;
            return `A,${pattern(new Date((second + minutes * 60) * 1000), ahead)},J,Q,8000`;
          });
          const run = await runIntake(textFile(['Ticket,End,Station,Tail,Volume (L)', ...lines].join('\n')));
          expect(run.asks).toEqual([]);
          expect(run.rows.map(({ values }) => values.time)).toEqual(
            instants.map(([second]) => new Date(second * 1000).toISOString())
          );
        }
      ),
      { numRuns: 80 }
    );
  });

  it('is never read from a day that does not exist', async () => {
    const impossible = fc.constantFrom(
      '2026-02-29',
      '2026-02-31',
      '2026-04-31',
      '2026-13-01',
      '2026-00-10',
      '31 Jun 2026',
      '30 février 2026'
    );
    await fc.assert(
      fc.asyncProperty(fc.array(impossible, { minLength: 1, maxLength: 4 }), async (days) => {
        const good = 'A,2026-03-04 10:00Z,J,Q,8000';
        const lines = [good, good, good, good, ...days.map((day) => `A,${day} 10:00Z,J,Q,8000`)];
        const run = await runIntake(textFile(['Ticket,End,Station,Tail,Volume (L)', ...lines].join('\n')));
        expect(run.rows.map(({ line }) => line)).toEqual([2, 3, 4, 5]);
        expect(run.account?.counts.refused).toBe(days.length);
      }),
      { numRuns: 30 }
    );
  });

  it('is asked about where the dates of a column contradict each other', async () => {
    await fc.assert(
      fc.asyncProperty(records, async (rows) => {
        const table = tableLines(rows, { ...isoNotation, order: 'dmy' });
        const other = table.slice(1, 2).map((row) => row.replace(/\d+[/.-]\d+[/.-]\d{4}/, '04/27/2024'));
        const proof = table.slice(1, 2).map((row) => row.replace(/\d+[/.-]\d+[/.-]\d{4}/, '27/04/2024'));
        const run = await runIntake(textFile([...table, ...proof, ...other].join('\n')));
        expect(run.asks.some((id) => id.startsWith('dateOrder'))).toBe(true);
      }),
      { numRuns: 40 }
    );
  });
});

describe('the time of the machine', () => {
  it('changes no value and no byte of an account', async () => {
    const before = process.env.TZ;
    const lines = ['Ticket,Local time,Station,Tail,Volume (L)'];
    for (let hour = 0; hour < 24; hour++) {
      lines.push(`A${hour},2024-10-27 ${String(hour).padStart(2, '0')}:30,JARV,Q7-KEA,8000`);
    }
    const answers = [{ id: 'zone', answer: 'zone:Europe/Paris' }];
    const results = new Set<string>();
    try {
      for (const zone of ['Pacific/Kiritimati', 'America/St_Johns', 'UTC']) {
        process.env.TZ = zone;
        const { rows, account } = await runIntake(textFile(lines.join('\n')), { answers });
        results.add(JSON.stringify([rows, account]));
      }
    } finally {
      if (before === undefined) delete process.env.TZ;
      else process.env.TZ = before;
    }
    expect(results.size).toBe(1);
  });
});
