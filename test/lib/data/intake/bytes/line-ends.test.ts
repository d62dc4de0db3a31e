import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineEndCounter } from '#lib/data/intake/bytes/line-ends.ts';

const pieces = fc.array(fc.array(fc.constantFrom(0x0a, 0x0d, 0x61), { maxLength: 6 }), { maxLength: 8 });

describe('line ends', () => {
  it('are the same counted byte by byte and a piece at a time, wherever pieces break', () => {
    fc.assert(
      fc.property(pieces, (given) => {
        const single = new LineEndCounter();
        const whole = new LineEndCounter();
        for (const piece of given) {
          for (const byte of piece) single.push(byte);
          whole.pushAll(Uint8Array.from(piece));
        }
        expect(whole.counts()).toEqual(single.counts());
      })
    );
  });
});
