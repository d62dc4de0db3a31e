import { gzipSync as nodeGzip } from 'node:zlib';
import fc from 'fast-check';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it, test } from 'vitest';
import { displayName } from '#lib/data/intake/bytes/display-name.ts';
import { openFile, type Opened } from '#lib/data/intake/bytes/open.ts';
import { recogniseFile, type FileKind } from '#lib/data/intake/bytes/recognise.ts';
import { unpack } from '#lib/data/intake/bytes/unpack.ts';
import { readZipDirectory } from '#lib/data/intake/bytes/zip-directory.ts';
import { zip64Archive } from './zip64-archive.ts';

const table = strToU8('station,volume\nAAA,812.5\n');
const gzipped = Uint8Array.from(nodeGzip(table));

async function open(name: string, bytes: Uint8Array<ArrayBuffer>): Promise<Opened> {
  return openFile(name, new Blob([bytes]));
}

async function told(name: string, bytes: Uint8Array<ArrayBuffer>): Promise<string[]> {
  const { files, notOpened } = await open(name, bytes);
  const texts = await Promise.all(files.map((file) => file.blob.text()));
  return [
    ...files.map((file, i) => `${file.name} in ${file.archive ?? 'none'}: ${texts[i] ?? ''}`),
    ...notOpened.map((file) => `${file.name}: ${file.fault}`)
  ];
}

/** The bytes with those at each place after a signature replaced. */
function patched(
  bytes: Uint8Array<ArrayBuffer>,
  signature: number[],
  offset: number,
  by: number[]
): Uint8Array<ArrayBuffer> {
  const copy = bytes.slice();
  const at = copy.findIndex((_, i) => signature.every((byte, k) => copy[i + k] === byte));
  copy.set(by, at + offset);
  return copy;
}

const central = [0x50, 0x4b, 0x01, 0x02];

describe('what a file is by its bytes', () => {
  const bytes = (...values: number[]): Uint8Array<ArrayBuffer> =>
    Uint8Array.from([...values, ...Array<number>(40).fill(0)]);
  test.each<[string, Uint8Array<ArrayBuffer>, FileKind]>([
    ['nothing', new Uint8Array(), 'empty'],
    ['a table', table, 'text'],
    ['UTF-16 without a mark', Uint8Array.from(Buffer.from('a,b\n1,2\n', 'utf16le')), 'text'],
    ['a table with a NUL in it', strToU8(`a,b\n${'1,2\n'.repeat(20)}\0`), 'text'],
    ['Windows-1252', Uint8Array.of(0x43, 0x61, 0x66, 0xe9, 0x0a), 'text'],
    ['a page of a portal', strToU8('\ufeff \n<!DOCTYPE html><title>Sign in</title>'), 'webPage'],
    ['a table of a page', strToU8('<table><tr><td>1</td></tr></table>'), 'webPage'],
    ['text that begins with a bracket', strToU8('<5 ppm,>15 ppm\n'), 'text'],
    ['gzip', gzipped, 'gzip'],
    ['an archive', zipSync({ 'a.csv': table }), 'zip'],
    ['a workbook', zipSync({ '[Content_Types].xml': table, 'xl/workbook.xml': table }), 'spreadsheet'],
    ['an open document', zipSync({ mimetype: table, 'META-INF/manifest.xml': table }), 'spreadsheet'],
    ['an old workbook', bytes(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1), 'oldSpreadsheet'],
    ['a PDF', strToU8('%PDF-1.7\n'), 'pdf'],
    ['a picture', bytes(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a), 'picture'],
    ['an archive of another kind', bytes(0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c, 0, 4), 'otherArchive'],
    ['a document of a word processor', strToU8('{\\rtf1\\ansi Ticket}'), 'document'],
    ['JSON', strToU8('[ {"ticket": "A1"} ]'), 'json'],
    ['a table that ends in a block of NUL bytes', strToU8(`a,b\n1,2\n${'\0'.repeat(300)}`), 'text'],
    ['noise', Uint8Array.from({ length: 500 }, (_, i) => (i * 197) & 0xff), 'binary']
  ])('%s', async (_, content, kind) => {
    expect(await recogniseFile(new Blob([content]))).toBe(kind);
  });
});

describe('files opened', () => {
  const text = 'station,volume\nAAA,812.5\n';

  test.each<[string, string, Uint8Array<ArrayBuffer>, string[]]>([
    ['a plain file is itself', 'may.csv', table, [`may.csv in none: ${text}`]],
    ['a gzip file loses its ending', 'may.csv.gz', gzipped, [`may.csv in none: ${text}`]],
    [
      'an archive gives its files, deflated and stored, packed once more and in folders',
      'all.zip',
      zipSync({
        'a.csv': [table, { level: 0 }],
        'x/b.csv': table,
        'c.csv.gz': gzipped,
        'empty/': new Uint8Array()
      }),
      [`a.csv in all.zip: ${text}`, `x/b.csv in all.zip: ${text}`, `c.csv in all.zip: ${text}`]
    ],
    [
      'files that are no text are named, shadows are not',
      'all.zip',
      zipSync({
        'a.pdf': strToU8('%PDF-1.7'),
        'b.xlsx': zipSync({ '[Content_Types].xml': table }),
        'c.zip': zipSync({ 'd.csv': table }),
        'e.csv': new Uint8Array(),
        '__MACOSX/._a.csv': strToU8('shadow'),
        'x/.DS_Store': strToU8('shadow')
      }),
      ['a.pdf: pdf', 'b.xlsx: spreadsheet', 'c.zip: nestedArchive', 'e.csv: empty']
    ],
    ['a page is no table', 'uplifts.xls', strToU8('<html></html>'), ['uplifts.xls: webPage']],
    ['an empty archive', 'all.zip', zipSync({}), ['all.zip: empty']],
    ['gzip in gzip', 'a.gz', Uint8Array.from(nodeGzip(gzipped)), ['a.gz: nestedArchive']],
    ['gzip cut short', 'a.gz', gzipped.slice(0, -9), ['a.gz: damaged']],
    ['gzip with a wrong checksum', 'a.gz', gzipped.with(gzipped.length - 6, 1), ['a.gz: damaged']],
    ['an archive cut short', 'a.zip', zipSync({ 'a.csv': table }).slice(0, -30), ['a.zip: damaged']],
    [
      'one flipped bit of a stored file',
      'a.zip',
      patched(zipSync({ 'a.csv': [table, { level: 0 }] }), Array.from(strToU8('812.5')), 0, [0x39]),
      ['a.csv: damaged']
    ],
    [
      'a directory that lies about the length',
      'a.zip',
      patched(zipSync({ 'a.csv': table }), central, 24, [5, 0, 0, 0]),
      ['a.csv: unpacksTooLarge']
    ],
    ['a locked file', 'a.zip', patched(zipSync({ 'a.csv': table }), central, 8, [1]), ['a.csv: locked']],
    [
      'an unknown method',
      'a.zip',
      patched(zipSync({ 'a.csv': table }), central, 10, [14]),
      ['a.csv: methodUnknown']
    ],
    [
      'more than 500 MB announced',
      'a.zip',
      patched(zipSync({ 'a.csv': table }), central, 24, [0, 0, 0, 0x7f]),
      ['a.csv: unpacksTooLarge']
    ],
    [
      'more than a thousand files',
      'a.zip',
      zipSync(
        Object.fromEntries(Array.from({ length: 1001 }, (_, i) => [`${i}.csv`, [table, { level: 0 }]]))
      ),
      ['a.zip: tooManyFiles']
    ],
    ['a ZIP64 archive', 'a.zip', zip64Archive('a.csv', table), [`a.csv in a.zip: ${text}`]]
  ])('%s', async (_, name, bytes, expected) => {
    expect(await told(name, bytes)).toEqual(expected);
  });

  it('refuse what shrinks more than any table, before it fills the memory', async () => {
    const bomb = Uint8Array.from(nodeGzip(Buffer.alloc(60_000_000, 'a')));
    const behind: number[] = [];
    const { notOpened } = await openFile('a.csv.gz', new Blob([bomb]), (bytes) => behind.push(bytes) > 0);
    expect(notOpened).toEqual([{ name: 'a.csv.gz', archive: null, fault: 'unpacksTooLarge' }]);
    expect(Math.max(...behind)).toBeLessThan(16_000_000);
  });

  it('stop when they are asked to', async () => {
    const archive = new Blob([zipSync({ 'a.csv': table, 'b.csv': table })]);
    const { files, notOpened } = await openFile('a.zip', archive, () => false);
    expect({ files, faults: notOpened.map((file) => file.fault) }).toEqual({
      files: [],
      faults: ['stopped']
    });
  });

  it('keep to the bytes that are allowed', async () => {
    const packed = new Blob([gzipped]);
    expect(await unpack(packed, { format: 'gzip', mostBytes: table.length - 1 })).toEqual({
      fault: 'unpacksTooLarge'
    });
    expect(await unpack(packed, { format: 'gzip', mostBytes: table.length })).toHaveProperty('blob');
  });

  it('come out of any archive as they went in, and never throw over a broken one', async () => {
    const files = fc.dictionary(
      fc.stringMatching(/^[a-z]{1,8}\.csv$/),
      fc.uint8Array({ minLength: 1, maxLength: 300 }),
      { maxKeys: 4 }
    );
    await fc.assert(
      fc.asyncProperty(files, fc.nat(), fc.nat(255), async (contents, at, byte) => {
        const archive = zipSync(contents);
        const directory = await readZipDirectory(new Blob([archive]));
        expect(directory?.map((entry) => [entry.name, entry.bytes])).toEqual(
          Object.entries(contents).map(([name, bytes]) => [name, bytes.length])
        );
        const { files: opened, notOpened } = await open('a.zip', archive);
        for (const file of opened) {
          if (!file.name.endsWith('.csv')) continue;
          expect(new Uint8Array(await file.blob.arrayBuffer())).toEqual(
            Uint8Array.from(contents[file.name] ?? [])
          );
        }
        expect(opened.length + notOpened.length).toBe(Math.max(1, Object.keys(contents).length));
        const broken = await open('a.zip', archive.with(at % archive.length, byte));
        expect(broken.files.length + broken.notOpened.length).toBeGreaterThan(0);
      }),
      { numRuns: 60 }
    );
  });
});

describe('the name shown', () => {
  test.each([
    ['may.csv', 'may.csv'],
    ['2026/05/may.csv', '2026/05/may.csv'],
    ['../../etc/may.csv', 'etc/may.csv'],
    ['/root/./may.csv', 'root/may.csv'],
    ['C:\\data\\may.csv', 'C:/data/may.csv'],
    ['may\u202ecsv.exe', 'maycsv.exe'],
    ['a\u0000b\r\nc\u200b.csv', 'abc.csv'],
    ['\ud800.csv', '\ufffd.csv'],
    ['../', 'unnamed'],
    [`${'x'.repeat(300)}.csv`, `…${'x'.repeat(195)}.csv`]
  ])('%j', (path, name) => {
    expect(displayName(path)).toBe(name);
  });

  it('is stable', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 20 }), (path) => {
        expect(displayName(displayName(path))).toBe(displayName(path));
      })
    );
  });
});
