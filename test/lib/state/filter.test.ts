import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { activeParts, readFilter, withCode, withName, withoutPart, writeFilter } from '#lib/state/filter.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { fieldsOfKind } from '#lib/data/record/index.ts';

const names = fc.array(fc.string({ unit: 'grapheme', maxLength: 8 }), { minLength: 1, maxLength: 3 });
const filters: fc.Arbitrary<RecordFilter> = fc.record(
  {
    names: fc.dictionary(fc.constantFrom(...fieldsOfKind('name')), names, { minKeys: 1, maxKeys: 3 }),
    fromDay: fc.constantFrom('2030-01-31', '2031-12-01'),
    untilDay: fc.constantFrom('2032-02-29'),
    verdicts: fc.constantFrom<RecordFilter['verdicts'] & object>(['outside'], ['within', 'outside']),
    qualities: fc.constantFrom<RecordFilter['qualities'] & object>(['measured']),
    marks: fc.constantFrom<RecordFilter['marks'] & object>(['groundBurnNotRecorded', 'suspectedSlip']),
    failed: fc.constantFrom<RecordFilter['failed'] & object>(['waterTest'])
  },
  { requiredKeys: [] }
);

function written(filter: RecordFilter): string {
  const parameters = new URLSearchParams();
  writeFilter(filter, parameters);
  return parameters.toString();
}

describe('a filter in a link', () => {
  it('reads back as the same filter', () => {
    fc.assert(
      fc.property(filters, (filter) => {
        const back = readFilter(new URLSearchParams(written(filter)));
        expect(back.unknown).toEqual([]);
        expect(written(back.filter)).toBe(written(filter));
        expect(activeParts(back.filter)).toEqual(activeParts(filter));
      })
    );
  });

  it('leaves out what it does not understand and says so', () => {
    const { filter, unknown } = readFilter(
      new URLSearchParams('from=31.01.2030&verdicts=outside,splendid&marks=constructor&station=JARV')
    );
    expect(filter).toEqual({ names: { station: ['JARV'] }, verdicts: ['outside'] });
    expect(unknown).toEqual(['31.01.2030', 'splendid', 'constructor']);
  });

  it('loses exactly the part that is taken away', () => {
    fc.assert(
      fc.property(filters, (filter) => {
        for (const part of activeParts(filter)) {
          expect(activeParts(withoutPart(filter, part))).toEqual(
            activeParts(filter).filter((each) => each !== part)
          );
        }
      })
    );
  });

  it('takes one more code into a list, once', () => {
    const filter = withCode({}, 'verdicts', 'outside');
    expect(withCode(filter, 'verdicts', 'within')).toEqual({ verdicts: ['outside', 'within'] });
    expect(withCode(filter, 'verdicts', 'outside')).toBe(filter);
  });

  it('drops a name whose last value is taken away', () => {
    const filter = withName({}, 'station', ['JARV']);
    expect(withName(filter, 'station', [])).toEqual({ names: {} });
  });
});
