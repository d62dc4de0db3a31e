import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';
import { countNetworkNames } from '../../src/tools/network-names.js';
import {
  firstPageFiles,
  judgeNetwork,
  judgePackages,
  judgeUrls,
  packageOf,
  packagesOf
} from './bundle-rules.js';

const allowed = {
  licences: ['MIT', 'ISC'],
  packages: { good: { licence: 'MIT', why: 'test' } },
  network: [{ package: 'good', name: 'fetch', count: 1, unreachable: 'test' }],
  urls: [{ start: 'http://www.w3.org/', why: 'names' }]
};

function module(id: string, network: Record<string, number>) {
  return { id, bytes: 1, network };
}

describe('the package of a module', () => {
  it.each([
    ['node_modules/d3-array/src/bin.js', 'd3-array'],
    ['node_modules/@noble/hashes/sha2.js', '@noble/hashes'],
    ['node_modules/a/node_modules/b/index.js', 'b'],
    ['src/lib/core/units/index.ts', '(own code)'],
    ['.svelte-kit/generated/root.js', '@sveltejs/kit'],
    ['virtual:vite/preload-helper.js', 'vite'],
    ['elsewhere/a.js', '(unknown: elsewhere/a.js)']
  ])('of %s is %s', (id, name) => {
    expect(packageOf(id)).toBe(name);
  });

  it('counts fonts and other files too, own code aside', () => {
    const files = [
      {
        file: 'a.js',
        imports: [],
        dynamicImports: [],
        modules: [module('src/a.ts', {}), module('node_modules/z/a.js', {})],
        from: []
      },
      {
        file: 'a.woff2',
        imports: [],
        dynamicImports: [],
        modules: [],
        from: ['node_modules/@fontsource/f/a.woff2']
      }
    ];
    expect(packagesOf(files)).toEqual(['@fontsource/f', 'z']);
  });
});

describe('the list of packages', () => {
  it.each([
    ['of an unlisted package', 'bad', 'MIT', 'is not in bundle-allowed.json'],
    ['of a licence that changed', 'good', 'ISC', 'the list says MIT'],
    ['of a licence that is not let in', 'good', 'GPL-3.0', 'need one of MIT, ISC']
  ])('finds the fault %s', (_, name, licence, words) => {
    expect(judgePackages([name], () => licence, allowed).join('\n')).toContain(words);
  });

  it('lets a listed package with its licence pass', () => {
    expect(judgePackages(['good'], () => 'MIT', allowed)).toEqual([]);
  });
});

describe('network names', () => {
  it.each([
    ['fetch(url)', { fetch: 1 }],
    ['window.fetch(url)', { fetch: 1 }],
    ["self['fetch'](url)", { fetch: 1 }],
    ['new XMLHttpRequest', { XMLHttpRequest: 1 }],
    ['navigator.sendBeacon(url)', { sendBeacon: 1 }],
    ["'serviceWorker' in navigator", { serviceWorker: 1 }],
    ['import(url)', { 'import(computed)': 1 }],
    ['import(`./a${b}.js`)', { 'import(computed)': 1 }],
    ["import('./a.js'); import(`./b.js`)", {}],
    ["prefetch(url); /* fetch(url) */ text = 'we fetch(url)'", {}]
  ])('in %s are %o', (code, counts) => {
    expect(countNetworkNames(parseSync('a.js', code).program)).toEqual(counts);
  });

  it('pass where a listed package has as many as the list explains', () => {
    const uses = [
      { file: 'a.js', counts: { fetch: 1 }, modules: [module('node_modules/good/a.js', { fetch: 1 })] }
    ];
    expect(judgeNetwork(uses, allowed)).toEqual([]);
  });

  it.each([
    ['own code has one', 1, [module('src/a.ts', { fetch: 1 })], 'own code may name no network interface'],
    [
      'an unlisted package has one',
      1,
      [module('node_modules/bad/a.js', { fetch: 1 })],
      'is not in bundle-allowed.json'
    ],
    ['a listed package has more', 2, [module('node_modules/good/a.js', { fetch: 2 })], 'the list explains 1'],
    [
      'a script has one that no module explains',
      1,
      [module('node_modules/good/a.js', {})],
      'its modules have 0'
    ]
  ])('fail where %s', (_, count, modules, words) => {
    const uses = [{ file: 'a.js', counts: { fetch: count }, modules }];
    expect(judgeNetwork(uses, allowed).join('\n')).toContain(words);
  });
});

describe('addresses in what is built', () => {
  it('pass when they are listed', () => {
    expect(judgeUrls('a.js', 'x="http://www.w3.org/2000/svg"', allowed)).toEqual([]);
  });

  it.each(['https://example.org/a', 'http://example.org', 'wss://example.org/'])('%s fails', (url) => {
    expect(judgeUrls('a.js', `x="${url}"`, allowed)).toHaveLength(1);
  });
});

describe('the scripts of the first page', () => {
  it('are those its markup names and what they import at once, not what they may load later', () => {
    const page = `<link href="./_app/a.js" rel="modulepreload"><script>import("./_app/b.js")</script>`;
    const listed = new Map(
      [
        { file: '_app/a.js', imports: ['_app/c.js'] },
        { file: '_app/b.js', imports: [] },
        { file: '_app/c.js', imports: ['_app/a.js'] }
      ].map((one) => [one.file, { ...one, dynamicImports: ['_app/later.js'], modules: [], from: [] }])
    );
    expect(firstPageFiles(page, listed)).toEqual(['_app/a.js', '_app/b.js', '_app/c.js']);
  });
});
