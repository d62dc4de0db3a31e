import { describe, expect, it } from 'vitest';
import {
  checkPackages,
  checkPlaces,
  checkRoomArrows,
  findCycles,
  readImports,
  type Edge,
  type Room
} from './imports.ts';

const rooms: readonly Room[] = [
  { path: 'lib/core', may: [] },
  { path: 'lib/data', may: ['lib/core'] },
  { path: 'lib/data/store', may: [], types: ['lib/data'] },
  { path: 'lib/state', may: ['lib/worker/client.ts'] },
  { path: 'lib/worker', may: ['lib/data'] }
];

function edge(from: string, to: string, typesOnly = false): Edge {
  return { from, to, target: 'file', typesOnly, names: ['x'] };
}

function taken(from: string, to: string, names: readonly string[], typesOnly = false): Edge {
  return { from, to, target: 'package', typesOnly, names };
}

describe('reading imports', () => {
  it.each([
    ["import { a } from './b.ts';", 'lib/x/b.ts', false],
    ["import './b.ts';", 'lib/x/b.ts', false],
    ["import type { A } from '../y/b.ts';", 'lib/y/b.ts', true],
    ["import { type A } from './b.ts';", 'lib/x/b.ts', true],
    ["import { type A, b } from './b.ts';", 'lib/x/b.ts', false],
    ["import a, { type B } from './b.ts';", 'lib/x/b.ts', false],
    ["export * from '#lib/core/b.ts';", 'lib/core/b.ts', false],
    ["export type { A } from './b.ts';", 'lib/x/b.ts', true],
    ["export { type A, b } from './b.ts';", 'lib/x/b.ts', false],
    ["const b = await import('./b.ts');", 'lib/x/b.ts', false],
    ["type B = import('./b.ts').B;", 'lib/x/b.ts', true],
    ["import url from './b.ts?worker&url';", 'lib/x/b.ts', false]
  ])('%s', (text, to, typesOnly) => {
    expect(readImports('lib/x/a.ts', text)).toMatchObject([
      { from: 'lib/x/a.ts', to, target: 'file', typesOnly }
    ]);
  });

  it('takes them from both scripts of a component and from its markup', () => {
    const text = `<script module>import './a.ts';</script><script lang="ts">import B from './B.svelte';</script>
      {#await import('./c.ts') then c}{c}{/await} import './not-code.ts'`;
    expect(readImports('routes/+page.svelte', text).map(({ to }) => to)).toEqual([
      'routes/a.ts',
      'routes/B.svelte',
      'routes/c.ts'
    ]);
  });

  it('does not take one for an import that stands in a comment or a text', () => {
    expect(readImports('lib/x/a.ts', '// import "./b.ts"\nconst text = "import \'./c.ts\'";')).toEqual([]);
  });

  it('calls an import with a computed address unreadable, and no room may have it', () => {
    const edges = readImports('lib/core/a.ts', 'await import(name);');
    expect(edges).toMatchObject([{ target: 'unreadable' }]);
    expect(checkRoomArrows(edges, rooms)).toHaveLength(1);
  });
});

describe('the rule of rooms', () => {
  it.each([
    [edge('lib/data/a.ts', 'lib/core/units/b.ts')],
    [edge('lib/core/a.ts', 'lib/core/deep/b.ts')],
    [edge('lib/data/store/a.ts', 'lib/data/b.ts', true)],
    [edge('lib/state/a.ts', 'lib/worker/client.ts')]
  ])('lets %o pass', (good) => {
    expect(checkRoomArrows([good], rooms)).toEqual([]);
  });

  it.each([
    ['against the direction', edge('lib/core/a.ts', 'lib/data/b.ts')],
    ['against the direction, types too', edge('lib/core/a.ts', 'lib/data/b.ts', true)],
    ['a value where only types may come', edge('lib/data/store/a.ts', 'lib/data/b.ts')],
    ['past the one open door', edge('lib/state/a.ts', 'lib/worker/engine.ts')],
    ['from an inner room to one that the outer room may use', edge('lib/data/store/a.ts', 'lib/core/b.ts')],
    ['to a folder that only begins alike', edge('lib/data/a.ts', 'lib/core-more/b.ts')],
    ['from no room', edge('lib/odd/a.ts', 'lib/core/b.ts')]
  ])('refuses an arrow %s', (_, wrong) => {
    expect(checkRoomArrows([edge('lib/data/a.ts', 'lib/core/b.ts'), wrong], rooms)).toHaveLength(1);
  });

  it('finds files without a room and drawers for things without a place', () => {
    const paths = ['lib/core/a.ts', 'lib/a.ts', 'lib/core/utils/b.ts', 'lib/core/types.ts'];
    expect(checkPlaces(paths, rooms)).toHaveLength(3);
  });
});

describe('the rule of packages', () => {
  const rules = [
    { name: 'idb', places: ['lib/data/store'] },
    { name: 'd3', places: ['lib/charts'], parts: ['d3-scale'] }
  ];

  it.each([
    [taken('lib/data/store/a.ts', 'idb', ['openDB'])],
    [taken('lib/charts/a.ts', 'd3', ['scaleLinear'])],
    [taken('lib/charts/a.ts', 'd3', ['ScaleLinear'], true)]
  ])('lets %o pass', async (good) => {
    expect(await checkPackages([good], rules)).toEqual([]);
  });

  it.each([
    ['outside its place', taken('lib/data/a.ts', 'idb', ['openDB'])],
    ['that is not listed', taken('lib/data/store/a.ts', 'other', ['x'])],
    ["of node's own", taken('lib/data/store/a.ts', 'node:fs', ['readFileSync'])],
    ['by a name of a part that is not open', taken('lib/charts/a.ts', 'd3', ['scaleLinear', 'select'])],
    ['as a whole', taken('lib/charts/a.ts', 'd3', ['*'])],
    ['by its inner parts', taken('lib/charts/a.ts', 'd3-scale', ['scaleLinear'])]
  ])('refuses a package %s', async (_, wrong) => {
    expect(await checkPackages([wrong], rules)).toHaveLength(1);
  });
});

describe('cycles', () => {
  it('are found however long, and named', () => {
    const edges = [edge('a', 'b'), edge('b', 'c'), edge('c', 'a'), edge('c', 'd')];
    expect(findCycles(edges)).toEqual(['a -> b -> c -> a']);
  });

  it('are not seen where two ways lead to one file', () => {
    expect(findCycles([edge('a', 'b'), edge('a', 'c'), edge('b', 'd'), edge('c', 'd')])).toEqual([]);
  });

  it('are found through types and in a file that imports itself', () => {
    expect(findCycles([edge('a', 'b', true), edge('b', 'a', true)])).toHaveLength(1);
    expect(findCycles([edge('a', 'a')])).toHaveLength(1);
  });
});
