import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { visibleText } from '#lib/ui/visible-text.ts';

describe('a text on screen', () => {
  // Code points by the Unicode character database, general categories Cc and Cf.
  const rows: readonly (readonly [what: string, text: string, shown: string])[] = [
    ['plain text is as it is', 'Q7-KEB é 福', 'Q7-KEB é 福'],
    ['markup is as it is', '<img src=x onerror="a()">', '<img src=x onerror="a()">'],
    ['a line feed and a tab have pictures', 'a\n\tb', 'a␊␉b'],
    ['NUL and DEL have pictures', '\0\x7f', '␀␡'],
    ['a right-to-left override is named', 'Q7-\u202eBEK', 'Q7-[U+202E]BEK'],
    ['a space without width is named', 'Q7\u200b-KEB', 'Q7[U+200B]-KEB'],
    ['a tag character is named', 'A\u{e0041}', 'A[U+E0041]'],
    ['joiners of scripts stay', 'می\u200cخواهم', 'می\u200cخواهم']
  ];
  it.each(rows)('%s', (_, text, shown) => {
    expect(visibleText(text)).toBe(shown);
  });

  it('holds nothing that hides, and text that hides nothing is left alone', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const shown = visibleText(text);
        expect(shown.replaceAll(/[\u200c\u200d]/g, '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
        expect(visibleText(shown)).toBe(shown);
      })
    );
  });
});
