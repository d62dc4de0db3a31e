/** State of a small fast counting generator (sfc32: three words mixed, one counted). Plain data, so it can be copied. */
export interface Random {
  a: number;
  b: number;
  c: number;
  count: number;
}

const goldenRatio32 = 0x9e3779b9;
const warmUpSteps = 12;

function scramble(word: number): number {
  let mixed = word ^ (word >>> 16);
  mixed = Math.imul(mixed, 0x85ebca6b);
  mixed ^= mixed >>> 13;
  mixed = Math.imul(mixed, 0xc2b2ae35);
  return (mixed ^ (mixed >>> 16)) | 0;
}

/** A generator of its own for each list of keys (whole numbers): the same keys give the same numbers for ever. */
export function seeded(seed: number, ...keys: number[]): Random {
  let a = scramble(seed | 0);
  let b = scramble(a ^ Math.floor(seed / 0x100000000));
  let c = goldenRatio32 | 0;
  for (const key of keys) {
    a = scramble((a + key) | 0);
    b = scramble((b ^ a) + goldenRatio32);
    c = (c + Math.imul(b, 0x2545f491)) | 0;
  }
  const random = { a, b, c, count: 1 };
  for (let step = 0; step < warmUpSteps; step++) uniform(random);
  return random;
}

/** The next number, from 0 up to but without 1. */
export function uniform(random: Random): number {
  const { a, b, c, count } = random;
  const sum = (((a + b) | 0) + count) | 0;
  random.count = (count + 1) | 0;
  random.a = b ^ (b >>> 9);
  random.b = (c + (c << 3)) | 0;
  random.c = (((c << 21) | (c >>> 11)) + sum) | 0;
  return (sum >>> 0) / 0x100000000;
}

/** True with the given probability. */
export function chance(random: Random, probability: number): boolean {
  return uniform(random) < probability;
}

/** A whole number from 0 up to but without `below`. */
export function whole(random: Random, below: number): number {
  return Math.floor(uniform(random) * below);
}

/** A number between two others. */
export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * uniform(random);
}

/** A number from the standard normal distribution, by the transform of Box and Muller. */
export function normal(random: Random): number {
  const radius = Math.sqrt(-2 * Math.log(1 - uniform(random)));
  return radius * Math.cos(2 * Math.PI * uniform(random));
}

/** A waiting amount with the given mean, from the exponential distribution. */
export function exponential(random: Random, mean: number): number {
  return -mean * Math.log(1 - uniform(random));
}

/** One of a list; throws on an empty one. */
export function pick<T>(random: Random, list: readonly T[]): T {
  const found = list[whole(random, list.length)];
  if (found === undefined) throw new RangeError('pick: list, need one entry or more, have 0');
  return found;
}
