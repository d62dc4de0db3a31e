import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { Sha256, sha256OfBlob, sha256OfText } from '#lib/data/digest/index.ts';

function byNode(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

describe('the digest of a text', () => {
  // Examples of FIPS 180-2, appendix B, and of the empty message in NIST's example values.
  test.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'
    ],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855']
  ])('%j', (text, hex) => {
    expect(sha256OfText(text)).toBe(hex);
  });
});

describe('over random bytes', () => {
  it('is what node:crypto gives, however the bytes are cut', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.array(fc.nat(300)), (bytes, cuts) => {
        const hash = new Sha256();
        const borders = [0, ...cuts.toSorted((a, b) => a - b), bytes.length];
        borders.forEach((from, i) =>
          hash.update(bytes.subarray(from, Math.max(from, borders[i + 1] ?? from)))
        );
        const seen = borders.flatMap((from, i) =>
          Array.from(bytes.subarray(from, Math.max(from, borders[i + 1] ?? from)))
        );
        expect(hash.hex()).toBe(byNode(Uint8Array.from(seen)));
      })
    );
  });

  it('is the same for a blob as for its bytes', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 200 }), async (bytes) => {
        expect(await sha256OfBlob(new Blob([Uint8Array.from(bytes)]))).toBe(byNode(bytes));
      })
    );
  });

  it('crosses slices and tells how far it is', async () => {
    const bytes = Uint8Array.from({ length: 2_500_000 }, (_, i) => (i * 31) & 0xff);
    const told: number[] = [];
    const hex = await sha256OfBlob(new Blob([bytes]), (done) => told.push(done) > 0);
    expect(hex).toBe(byNode(bytes));
    expect(told).toEqual([1_048_576, 2_097_152, 2_500_000]);
  });

  it('stops when it is asked to', async () => {
    expect(await sha256OfBlob(new Blob(['abc']), () => false)).toBeNull();
  });
});
