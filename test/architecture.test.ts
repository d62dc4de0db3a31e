import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  checkPlaces,
  checkRoomArrows,
  checkPackages,
  findCycles,
  readImports,
  type Edge,
  type PackageRule,
  type Room
} from './gates/imports.ts';

/**
 * The rooms of the house and what each may import, as DEVELOPERS.md explains them. A path stands for all under it;
 * files of one room may import each other. `types` may be imported as types only.
 */
const rooms: readonly Room[] = [
  { path: 'lib/core/units', may: [] },
  { path: 'lib/core/density', may: ['lib/core/units'] },
  { path: 'lib/core/statistics', may: [] },
  { path: 'lib/core/sequence', may: ['lib/core/units'] },
  { path: 'lib/core/reconciliation', may: ['lib/core/units', 'lib/core/density'] },
  {
    path: 'lib/core/causes',
    may: ['lib/core/units', 'lib/core/density', 'lib/core/reconciliation', 'lib/core/statistics']
  },
  { path: 'lib/data/record', may: ['lib/core/units'] },
  {
    path: 'lib/data/words',
    may: ['lib/data/record'],
    types: ['lib/core', 'lib/data/ledger', 'lib/data/settings']
  },
  { path: 'lib/data/settings', may: ['lib/data/record', 'lib/core/reconciliation'], types: ['lib/core'] },
  { path: 'lib/data/columns', may: [] },
  { path: 'lib/data/digest', may: [] },
  {
    path: 'lib/data/intake',
    may: [
      'lib/data/record',
      'lib/data/words',
      'lib/core/units',
      'lib/core/density',
      'lib/data/columns',
      'lib/data/digest'
    ],
    types: ['lib/data/settings']
  },
  { path: 'lib/data/ledger', may: ['lib/data/record', 'lib/data/columns', 'lib/data/settings', 'lib/core'] },
  {
    path: 'lib/data/questions',
    may: ['lib/data/record', 'lib/data/columns', 'lib/data/ledger', 'lib/data/settings', 'lib/core']
  },
  {
    path: 'lib/data/evidence',
    may: [
      'lib/data/record',
      'lib/data/words',
      'lib/data/columns',
      'lib/data/ledger',
      'lib/data/settings',
      'lib/data/digest'
    ],
    types: ['lib/data/questions']
  },
  { path: 'lib/data/store', may: ['lib/data/record', 'lib/data/settings', 'lib/data/columns'] },
  { path: 'lib/data/workspace', may: ['lib/data'] },
  { path: 'lib/demo', may: ['lib/data/record', 'lib/core/units', 'lib/core/density'] },
  { path: 'lib/worker', may: ['lib/data/workspace', 'lib/demo'] },
  { path: 'lib/worker/client.ts', may: ['lib/worker'], types: ['lib/data/workspace', 'lib/demo'] },
  {
    path: 'lib/state',
    may: ['lib/worker/client.ts', 'lib/worker/start.ts', 'lib/data/record', 'lib/data/words'],
    types: ['lib/data', 'lib/worker']
  },
  { path: 'lib/charts', may: [] },
  { path: 'lib/ui', may: ['lib/charts'] },
  {
    path: 'routes',
    may: ['lib/state', 'lib/charts', 'lib/ui', 'lib/data/record', 'lib/data/words'],
    types: ['lib/data']
  }
];

/** Every package and which places may name it. From d3, only functions of the packages listed, by name. */
const packages: readonly PackageRule[] = [
  { name: 'svelte', places: ['lib/state', 'lib/charts', 'lib/ui', 'routes'] },
  { name: '$app', places: ['lib/state', 'routes'] },
  { name: '@fontsource', places: ['routes'] },
  { name: '@fontsource-variable', places: ['routes'] },
  { name: 'papaparse', places: ['lib/data/intake/tokenise'] },
  { name: 'idb', places: ['lib/data/store'] },
  { name: '@noble/hashes', places: ['lib/data/digest'] },
  { name: 'fflate', places: ['lib/data/evidence'] },
  { name: 'jstat', places: ['lib/core/statistics'] },
  { name: 'd3', places: ['lib/core/statistics'], parts: ['d3-array'] },
  {
    name: 'd3',
    places: ['lib/charts'],
    parts: ['d3-array', 'd3-format', 'd3-scale', 'd3-shape', 'd3-path', 'd3-time', 'd3-time-format']
  },
  { name: 'd3', places: ['lib/ui'], parts: ['d3-format'] }
];

const sourceFolder = fileURLToPath(new URL('../src/', import.meta.url));

function sourceFiles(): string[] {
  return ['lib', 'routes'].flatMap((top) =>
    readdirSync(sourceFolder + top, { recursive: true, encoding: 'utf8' })
      .map((name) => `${top}/${name.replaceAll('\\', '/')}`)
      .filter((path) => /\.(ts|js|svelte)$/.test(path))
  );
}

const files = sourceFiles();
const edges: Edge[] = files.flatMap((path) => readImports(path, readFileSync(sourceFolder + path, 'utf8')));

describe('the house', () => {
  it('has files to judge, and reads imports from them', () => {
    expect(files.length).toBeGreaterThan(20);
    expect(edges.length).toBeGreaterThan(20);
  });

  it('has every file of src/lib in a room, no utils folder and no types.ts', () => {
    expect(checkPlaces(files, rooms)).toEqual([]);
  });

  it('has no arrow from room to room that the table does not name', () => {
    expect(checkRoomArrows(edges, rooms)).toEqual([]);
  });

  it('names each package only where it belongs', async () => {
    expect(await checkPackages(edges, packages)).toEqual([]);
  });

  it('has no cycle between files', () => {
    expect(findCycles(edges)).toEqual([]);
  });
});
