import { expect, test } from 'vitest';
import { UsualCount } from '#lib/data/intake/tokenise/usual-count.ts';

test.each<[string, number | undefined, number[], number]>([
  ['is 0 before there is a record', undefined, [], 0],
  ['does not count records of one cell', undefined, [1, 1, 1], 0],
  ['is that of most records', undefined, [3, 5, 5, 1, 1, 1], 5],
  ['stays with the one that led first where two are level', undefined, [3, 3, 5, 5], 3],
  ['goes back to one that led before', undefined, [3, 5, 5, 3, 3], 3],
  ["is the header's where that is known", 4, [3, 3, 3], 4]
])('the usual cell count %s', (_, known, counts, expected) => {
  const usual = new UsualCount(known);
  for (const count of counts) usual.add(count);
  expect(usual.value).toBe(expected);
});
