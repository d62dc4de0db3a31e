/** A small seeded generator (mulberry32), so that a table of 2,000 slips is the same for ever. */
export interface Random {
  readonly uniform: () => number;
  readonly normal: () => number;
  readonly below: (count: number) => number;
  readonly chance: (probability: number) => boolean;
}

export function seeded(seed: number): Random {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return {
    uniform,
    normal,
    below: (count) => Math.floor(uniform() * count),
    chance: (probability) => uniform() < probability
  };
}
