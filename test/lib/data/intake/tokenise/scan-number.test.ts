import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { scanNumber, scanNumberBytes } from '#lib/data/intake/tokenise/scan-number.ts';
import type { NumberMarks } from '#lib/data/intake/tokeniser.ts';

const point: NumberMarks = { decimal: '.', group: null };
const english: NumberMarks = { decimal: '.', group: ',' };
const german: NumberMarks = { decimal: ',', group: '.' };
const french: NumberMarks = { decimal: ',', group: '\u202f' };
const swiss: NumberMarks = { decimal: '.', group: '\u2019' };
const machine: NumberMarks = { decimal: '.', group: null, machine: true };

describe('a text that states a number is read as the nearest double', () => {
  test.each<[string, NumberMarks, number]>([
    ['0', point, 0],
    ['-0', point, -0],
    ['0001234', point, 1234],
    [' 812.3 ', point, 812.3],
    ['\u00a0812.3\t', point, 812.3],
    ['+35', point, 35],
    ['-12.5', point, -12.5],
    ['\u221212.5', point, -12.5],
    ['.5', point, 0.5],
    ['812.30000000000000000000', point, 812.3],
    ['0.000000000000000000000000123', point, 1.23e-25],
    ['123456789012345', point, 123456789012345],
    ['12,345.6', english, 12345.6],
    ['1,234,567', english, 1234567],
    ['12.345,6', german, 12345.6],
    ['1234,5', german, 1234.5],
    ['12 345,6', french, 12345.6],
    ['12\u00a0345,6', french, 12345.6],
    ['12\u202f345,6', french, 12345.6],
    ['12\u2009345,6', french, 12345.6],
    ["12'345.6", swiss, 12345.6],
    ['12\u2019345.6', swiss, 12345.6],
    ['1.5e3', machine, 1500],
    ['1e-7', machine, 1e-7],
    ['3.0699023749999997', machine, Number('3.0699023749999997')],
    ['-1234567890123456789', machine, -1.2345678901234568e18]
  ])('%s', (text, marks, value) => {
    expect(scanNumber(text, marks)).toBe(value);
  });
});

describe('a text that is no plain number is refused', () => {
  test.each<[string, NumberMarks]>([
    ['', point],
    ['   ', point],
    ['.', point],
    ['-', point],
    ['5.', point],
    ['5.-', point],
    ['- 5', point],
    ['--5', point],
    ['5-', point],
    ['(5)', point],
    ['1.2.3', point],
    ['1 2', point],
    ['12,345', point],
    ['1e308', point],
    ['1e400', machine],
    ['1e', machine],
    ['e5', machine],
    ['1e5e5', machine],
    ['1-5', machine],
    ['1.5e3', point],
    ['1,5e3', machine],
    ['NaN', machine],
    ['Infinity', machine],
    ['0x1F', machine],
    ['\u0661\u0662', point],
    ['\uff11\uff12', point],
    ['1234567890123456', point],
    ['0.30000000000000004', point],
    ['12,345,67', english],
    ['1234,567', english],
    ['12,34', english],
    [',345', english],
    ['12,345,', english],
    ['12,,345', english],
    ['0,801', english],
    ['1.234,567.8', german],
    ['12 345', english],
    ['1.000 kg', point],
    ['1\u00ff234', point],
    ['1\u00ff234', { decimal: '.', group: '\u00ff' }],
    ['1\u2603234', english],
    ['1'.repeat(65), machine]
  ])('%s', (text, marks) => {
    expect(scanNumber(text, marks)).toBeNaN();
  });
});

const groups = [null, ' ', '\u00a0', '\u202f', '\u2009', "'", '\u2019', '.', ','];
const anyMarks: fc.Arbitrary<NumberMarks> = fc
  .record({
    decimal: fc.constantFrom<'.' | ','>('.', ','),
    group: fc.constantFrom(...groups),
    machine: fc.boolean()
  })
  .filter((marks) => marks.group !== marks.decimal);

/** Digits of a decimal, written in the marks given. */
function written(negative: boolean, whole: string, fraction: string, marks: NumberMarks): string {
  const grouped = marks.group === null ? whole : whole.replace(/\B(?=(\d{3})+$)/g, marks.group);
  return (negative ? '-' : '') + grouped + (fraction === '' ? '' : marks.decimal + fraction);
}

describe('over random numbers and marks', () => {
  const digits = (least: number, most: number): fc.Arbitrary<string> =>
    fc.string({ unit: fc.constantFrom(...Array.from('0123456789')), minLength: least, maxLength: most });

  it('gives the double that Number() gives for the plain decimal', () => {
    fc.assert(
      fc.property(
        fc.boolean(),
        fc.nat(999999999),
        digits(0, 6),
        anyMarks,
        (negative, whole, fraction, marks) => {
          const plain = written(negative, String(whole), fraction, point);
          expect(scanNumber(written(negative, String(whole), fraction, marks), marks)).toBe(Number(plain));
        }
      ),
      { numRuns: 600 }
    );
  });

  it('agrees with Number() on any count of digits where a program wrote them', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(scanNumber(String(value), machine)).toBe(Number(String(value)));
      }),
      { numRuns: 600 }
    );
    fc.assert(
      fc.property(digits(1, 25), digits(1, 25), (whole, fraction) => {
        expect(scanNumber(`${whole}.${fraction}`, machine)).toBe(Number(`${whole}.${fraction}`));
      }),
      { numRuns: 600 }
    );
  });

  it('refuses or agrees, whatever the text', () => {
    const hostile = fc.string({
      unit: fc.constantFrom(...Array.from('0159.,-+eE \'"x\u00a0\u2212\u0661\u00ff')),
      maxLength: 12
    });
    fc.assert(
      fc.property(hostile, anyMarks, (text, marks) => {
        const value = scanNumber(text, marks);
        if (Number.isNaN(value)) return;
        const plain = text
          .trim()
          .replaceAll(marks.group ?? ' ', '')
          .replaceAll(/[\s'\u2019]/g, '')
          .replace('\u2212', '-')
          .replace(marks.decimal, '.');
        expect(value).toBe(Number(plain));
      }),
      { numRuns: 600 }
    );
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 20 }), anyMarks, (text, marks) => {
        expect(typeof scanNumber(text, marks)).toBe('number');
      })
    );
  });

  it('reads ASCII bytes in the middle of others as it reads their text', () => {
    const ascii = fc.string({ unit: fc.constantFrom(...Array.from("0123456789.,-+eE '")), maxLength: 20 });
    fc.assert(
      fc.property(ascii, anyMarks, (text, marks) => {
        const bytes = new TextEncoder().encode(`9${text}9`);
        expect(scanNumberBytes(bytes, 1, bytes.length - 1, marks)).toBe(scanNumber(text, marks));
      }),
      { numRuns: 600 }
    );
  });
});
