import { describe, expect, it } from 'vitest';
import { installFault, nodeFault } from '../../src/tools/install.js';

const here = () => true;

describe('the version of Node', () => {
  it.each(['20.19.0', '20.20.2', '22.0.0', '24.21.0'])('%s is new enough', (version) => {
    expect(nodeFault(version)).toBeNull();
  });

  it.each(['18.20.4', '20.18.3', '19.9.0'])(
    '%s is too old, and the message says what is needed',
    (version) => {
      expect(nodeFault(version)).toBe(`Node ${version}: Gaugebook needs Node 20.19 or newer (nodejs.org)`);
    }
  );
});

describe('what is installed', () => {
  const wanted = { '': {}, 'node_modules/a': { version: '1.0.0', integrity: 'x' } };

  it('is right when every package of the lockfile is there as it asks', () => {
    expect(installFault(wanted, { 'node_modules/a': { version: '1.0.0', integrity: 'x' } }, here)).toBeNull();
  });

  it('may lack what is optional: packages for other systems', () => {
    const more = { ...wanted, 'node_modules/b': { version: '1.0.0', optional: true } };
    expect(installFault(more, { 'node_modules/a': { version: '1.0.0', integrity: 'x' } }, here)).toBeNull();
  });

  it.each([
    ['a package is missing', {}, here, 'a is not installed'],
    [
      'a version differs',
      { 'node_modules/a': { version: '1.0.1', integrity: 'x' } },
      here,
      'a is version 1.0.1'
    ],
    [
      'the content differs',
      { 'node_modules/a': { version: '1.0.0', integrity: 'y' } },
      here,
      'a is version 1.0.0'
    ],
    [
      'its folder was removed',
      { 'node_modules/a': { version: '1.0.0', integrity: 'x' } },
      () => false,
      'a is missing from the folder'
    ],
    [
      'there is one too many',
      { 'node_modules/a': { version: '1.0.0', integrity: 'x' }, 'node_modules/c': { version: '1.0.0' } },
      here,
      'c is installed, but not in the lockfile'
    ]
  ])('is wrong when %s', (_, installed, isThere, words) => {
    expect(installFault(wanted, installed, isThere)).toContain(words);
  });
});
