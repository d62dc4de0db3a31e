import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ByteSource } from '#lib/data/intake/bytes/byte-source.ts';

describe('the bytes of a blob', () => {
  it('come in order and once, whatever is asked for at a time', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uint8Array({ maxLength: 60 }),
        fc.nat(10),
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 }),
        async (bytes, start, sizes) => {
          const source = new ByteSource(new Blob([bytes]), start);
          const found: number[] = [];
          for (let i = 0; source.position < bytes.length; i++) {
            const size = sizes[i % sizes.length] ?? 1;
            const { buffer, end } = await source.fill(new ArrayBuffer(12), 2, 2 + size);
            found.push(...new Uint8Array(buffer, 2, end - 2));
          }
          expect(found).toEqual([...bytes.subarray(Math.min(start, bytes.length))]);
        }
      )
    );
  });
});
