import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { archiveOf } from '#lib/data/evidence/index.ts';

describe('an archive of files', () => {
  it('gives every file back, and the same bytes for the same files', async () => {
    const files = [
      { name: 'a.csv', bytes: new TextEncoder().encode('ä;1\r\n') },
      { name: 'b.csv', bytes: new Uint8Array(0) }
    ];
    const bytes = new Uint8Array(await archiveOf(files).arrayBuffer());
    const back = unzipSync(bytes);
    expect(strFromU8(back['a.csv'] ?? new Uint8Array(0))).toBe('ä;1\r\n');
    expect(back['b.csv']).toHaveLength(0);
    expect(new Uint8Array(await archiveOf(files).arrayBuffer())).toEqual(bytes);
  });
});
