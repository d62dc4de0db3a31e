import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { decodeBytes, headText, pieceDecoder } from '#lib/data/intake/bytes/decode.ts';
import {
  EncodingSurvey,
  guessEncoding,
  surveyEncoding,
  type EncodingReport
} from '#lib/data/intake/bytes/encoding.ts';
import type { Dialect } from '#lib/data/intake/tokeniser.ts';

function survey(bytes: Uint8Array<ArrayBuffer>): Promise<EncodingReport> {
  return surveyEncoding(new Blob([bytes]));
}

function utf8(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text);
}

function latin1(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(Buffer.from(text, 'latin1'));
}

function utf16(text: string, big: boolean): Uint8Array<ArrayBuffer> {
  const bytes = Buffer.from(text, 'utf16le');
  return Uint8Array.from(big ? bytes.swap16() : bytes);
}

describe('the encoding of a file', () => {
  test.each<[string, Uint8Array<ArrayBuffer>, Partial<EncodingReport>]>([
    ['nothing', utf8(''), { name: 'utf-8', how: 'ascii', bomBytes: 0, firstWords: [] }],
    ['ASCII', utf8('a,b\n1,2\n'), { name: 'utf-8', how: 'ascii' }],
    ['UTF-8', utf8('Zürich,8 €\n'), { name: 'utf-8', how: 'validUtf8', firstWords: ['Zürich', '€'] }],
    [
      'UTF-8 with a mark',
      utf8('\ufeffa,é'),
      { name: 'utf-8', how: 'byteOrderMark', bomBytes: 3, firstWords: ['é'] }
    ],
    [
      'UTF-16LE with a mark',
      utf16('\ufeffa,é', false),
      { name: 'utf-16le', how: 'byteOrderMark', bomBytes: 2 }
    ],
    [
      'UTF-16BE with a mark',
      utf16('\ufeffa,é', true),
      { name: 'utf-16be', how: 'byteOrderMark', bomBytes: 2 }
    ],
    ['UTF-16LE', utf16('a,Café\n', false), { name: 'utf-16le', how: 'nulParity', firstWords: ['Café'] }],
    ['UTF-16BE', utf16('a,Café\n', true), { name: 'utf-16be', how: 'nulParity', firstWords: ['Café'] }],
    [
      'Windows-1252',
      latin1('Caf\xe9,5 \x80\n'),
      { name: 'windows-1252', how: 'notUtf8', firstWords: ['Café', '€'] }
    ]
  ])('%s', async (_, bytes, expected) => {
    expect(await survey(bytes)).toMatchObject(expected);
  });

  it('shows no more than three words, each once met', async () => {
    const { firstWords } = await survey(utf8('é one,two ü,12\u00a0345,Ö;ä\n'));
    expect(firstWords).toEqual(['é', 'ü', '12\u00a0345']);
  });

  it('is not flipped by one bad byte in a good file, and the line is named', async () => {
    const bytes = utf8('é\r\nü\r\nx\r\nö\r\n');
    bytes[8] = 0xff;
    expect(await survey(bytes)).toMatchObject({
      name: 'utf-8',
      how: 'mostlyUtf8',
      badBytes: 1,
      badLines: [3]
    });
  });

  it('is UTF-8 as long as its characters are not outnumbered by bad bytes', async () => {
    const good = Array.from(utf8('é'));
    expect(await survey(Uint8Array.of(...good, 0x20, 0xe9, 0x20))).toMatchObject({ how: 'mostlyUtf8' });
    expect(await survey(Uint8Array.of(...good, 0x20, 0xe9, 0x20, 0xe9))).toMatchObject({ how: 'notUtf8' });
  });

  it('is decided by bytes far behind the head too', async () => {
    const filler = 'a,b,c\n'.repeat(20_000);
    expect(await survey(latin1(`${filler}caf\xe9\n`))).toMatchObject({
      name: 'windows-1252',
      firstWords: ['café'],
      lineEnds: { crlf: 0, lf: 20_001, cr: 0 }
    });
  });
});

describe('ill-formed UTF-8 (Unicode Standard, table 3-7)', () => {
  test.each<[string, number[]]>([
    ['a lone continuation', [0x80]],
    ['an overlong form', [0xc0, 0xaf]],
    ['an overlong form of three', [0xe0, 0x9f, 0xbf]],
    ['a surrogate', [0xed, 0xa0, 0x80]],
    ['past U+10FFFF', [0xf4, 0x90, 0x80, 0x80]],
    ['cut off', [0xe6, 0x9d]]
  ])('%s', async (_, bad) => {
    const { how, badLines } = await survey(Uint8Array.from([...utf8('éééééé\n'), ...bad]));
    expect({ how, badLines }).toEqual({ how: 'mostlyUtf8', badLines: [2] });
  });

  it('is found where the engine finds it', () => {
    const byte = fc.constantFrom(
      0x41,
      0x80,
      0x8f,
      0x90,
      0x9f,
      0xa0,
      0xbf,
      0xc2,
      0xdf,
      0xe0,
      0xe6,
      0xed,
      0xf0,
      0xf4,
      0xff
    );
    fc.assert(
      fc.property(fc.array(byte, { maxLength: 8 }), (values) => {
        const bytes = Uint8Array.from(values);
        const one = new EncodingSurvey({ name: 'utf-8', how: 'byteOrderMark', bomBytes: 0 });
        one.take(bytes, 0);
        const replaced = new TextDecoder().decode(bytes).split('\ufffd').length - 1;
        expect(one.finish().badBytes).toBe(replaced);
      }),
      { numRuns: 600 }
    );
  });
});

const encodings: Dialect['encoding'][] = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'];
const words = fc.array(fc.constantFrom('abc', '12,5', 'Zürich', 'é,x', 'naïve', '\n', '\r\n', '-7'), {
  minLength: 1,
  maxLength: 30
});

describe('decode(encode(text))', () => {
  it('gives the text back in four encodings, with and without a byte order mark, detected from the bytes', async () => {
    await fc.assert(
      fc.asyncProperty(words, fc.constantFrom(...encodings), fc.boolean(), async (parts, encoding, mark) => {
        const text = `tail,volume ${parts.join(' ')} é.`;
        const marked = mark && encoding !== 'windows-1252' ? `\ufeff${text}` : text;
        const bytes =
          encoding === 'windows-1252'
            ? latin1(marked)
            : encoding === 'utf-8'
              ? utf8(marked)
              : utf16(marked, encoding === 'utf-16be');
        const { name, bomBytes } = await survey(bytes);
        expect(name).toBe(encoding);
        expect(decodeBytes(bytes.subarray(bomBytes), name)).toBe(text);
      }),
      { numRuns: 150 }
    );
  });

  it('holds for each byte of Windows-1252, by the WHATWG index', () => {
    const high = decodeBytes(
      Uint8Array.of(0x80, 0x82, 0x91, 0x92, 0x96, 0x9f, 0xa0, 0xe9, 0xff),
      'windows-1252'
    );
    expect(high).toBe('\u20ac\u201a\u2018\u2019\u2013\u0178\u00a0éÿ');
    expect(decodeBytes(Uint8Array.of(0x81, 0x9d), 'windows-1252')).toBe('\u0081\u009d');
  });

  it('does not depend on where the pieces break', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 20 }),
        fc.constantFrom(...encodings.slice(0, 3)),
        fc.nat(20),
        (text, encoding, cut) => {
          const wellFormed = text.toWellFormed();
          const bytes = encoding === 'utf-8' ? utf8(wellFormed) : utf16(wellFormed, encoding === 'utf-16be');
          const decoder = pieceDecoder(encoding);
          const pieces =
            decoder.decode(bytes.subarray(0, cut), false) + decoder.decode(bytes.subarray(cut), true);
          expect(pieces).toBe(wellFormed);
        }
      )
    );
  });

  it('leaves a character that the head cuts out of the head', async () => {
    const head = await headText(new Blob(['\ufeffabé']), { encoding: 'utf-8', bomBytes: 3 }, 3);
    expect(head).toEqual({ text: 'ab', isWhole: false });
  });
});

describe('any bytes', () => {
  it('are given an encoding, the same whatever the pieces, and each bad byte of UTF-8 a line', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), fc.nat(60), (bytes, cut) => {
        const guess = guessEncoding(bytes);
        const whole = new EncodingSurvey(guess);
        whole.take(bytes, 0);
        const pieces = new EncodingSurvey(guess);
        // The same bytes may come more than once, as where one reader hands over to another.
        pieces.take(bytes.subarray(0, cut), 0);
        pieces.take(bytes.subarray(0, cut >> 1), 0);
        pieces.take(bytes.subarray(cut >> 1), Math.min(cut >> 1, bytes.length));
        const report = whole.finish();
        expect(pieces.finish()).toEqual(report);
        expect(report.badLines.length > 0).toBe(report.badBytes > 0);
      }),
      { numRuns: 600 }
    );
  });
});
