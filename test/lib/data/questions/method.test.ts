import { describe, expect, it } from 'vitest';
import { Ledger } from '#lib/data/ledger/index.ts';
import { answer, createContext } from '#lib/data/questions/index.ts';
import { defaultSettings } from '#lib/data/settings/index.ts';

const ledger = new Ledger();
ledger.recompute(defaultSettings, [], []);
const method = answer(createContext(ledger, defaultSettings), 'method', {});

describe('the method, as the reader’s browser recomputes it', () => {
  it.each(method.checks.map((check) => [check.what, check] as const))(
    'agrees with what was published: %s',
    (_what, check) => {
      expect(Math.abs(check.computed - check.published)).toBeLessThanOrEqual(1.001 * 10 ** -check.decimals);
      expect(check.passed).toBe(true);
      expect(check.source).not.toBe('');
    }
  );

  it('covers density, units and reconciliation', () => {
    expect(new Set(method.checks.map(({ part }) => part))).toEqual(
      new Set(['density', 'units', 'reconciliation'])
    );
  });

  it('names a source for every unit, grade, uncertainty and cause', () => {
    for (const { source } of [...method.units, ...method.grades, ...method.uncertainties, ...method.causes]) {
      expect(source).not.toBe('');
    }
  });
});
