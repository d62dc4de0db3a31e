import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Dictionary } from '#lib/data/columns/index.ts';
import { ByteDictionary } from '#lib/data/intake/tokenise/byte-dictionary.ts';

function codeOf(table: ByteDictionary, text: string): number {
  const bytes = new TextEncoder().encode(`<${text}>`);
  return table.code(bytes, 1, bytes.length - 1, () => text);
}

it('gives the codes of its dictionary, and asks for a text once only', () => {
  const dictionary = new Dictionary();
  dictionary.code('known before');
  const table = new ByteDictionary(dictionary);
  let asked = 0;
  const bytes = new TextEncoder().encode('known before');
  const ask = (): string => (asked++, 'known before');
  expect([1, 2, 3].map(() => table.code(bytes, 0, bytes.length, ask))).toEqual([1, 1, 1]);
  expect(asked).toBe(1);
});

it('tells texts of one hash apart', () => {
  // Found by search: FNV-1a of 32 bits gives these the same sum.
  const table = new ByteDictionary(new Dictionary());
  const texts = ['rhjwnh', 'lunwhy', 'rhjwnh', 'lunwhy', 'costarring', 'liquid', 'costarring', 'liquid'];
  expect(texts.map((text) => codeOf(table, text))).toEqual([1, 2, 1, 2, 3, 4, 3, 4]);
});

it('keeps its codes while it grows', () => {
  const dictionary = new Dictionary();
  const table = new ByteDictionary(dictionary);
  const texts = Array.from({ length: 70_000 }, (_, i) => `T${i}`);
  const codes = texts.map((text) => codeOf(table, text));
  expect(codes).toEqual(texts.map((text) => dictionary.find(text)));
  expect(texts.map((text) => codeOf(table, text))).toEqual(codes);
});

it('agrees with the dictionary on any texts', () => {
  fc.assert(
    fc.property(
      fc.array(fc.string({ minLength: 1, maxLength: 3, unit: fc.constantFrom('a', 'b', 'é') })),
      (texts) => {
        const table = new ByteDictionary(new Dictionary());
        const plain = new Dictionary();
        expect(texts.map((text) => codeOf(table, text))).toEqual(texts.map((text) => plain.code(text)));
      }
    )
  );
});
