/** What a simulated crossed layout is made of; sizes and noises in the units of the published generator. */
export interface CrossedRecipe {
  readonly seed: number;
  /** Levels of the first and second factor, and records. */
  readonly nT: number;
  readonly nM: number;
  readonly N: number;
  readonly mu: number;
  readonly sdT: number;
  readonly sdM: number;
  /** Relative noise in percent, and absolute noise in units of the size. */
  readonly s0: number;
  readonly kg: number;
  /** Groups of levels, and the share of records at home in them. */
  readonly blocks: number;
  readonly pHome: number;
  /** Share of records with a gross error of 4 to 10 either way. */
  readonly pGross: number;
}

export interface SimulatedRecords {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly y: Float64Array;
  readonly size: Float64Array;
  /** 1 where a gross error was added. */
  readonly gross: Uint8Array;
  readonly trueA: Float64Array;
  readonly trueB: Float64Array;
}

/** Uniform numbers of the Park-Miller generator (1988, Commun ACM 31:1192), multiplier 16807. */
function parkMiller(seed: number): () => number {
  let state = seed;
  return () => {
    state = (16807 * state) % 2147483647;
    return state / 2147483647;
  };
}

const normal = (u1: number, u2: number): number => Math.sqrt(-2 * Math.log(u1)) * Math.cos(2 * Math.PI * u2);

/** Records of a crossed layout with known effects, the same from every engine. */
export function simulateCrossed(recipe: CrossedRecipe): SimulatedRecords {
  const { nT, nM, N, blocks } = recipe;
  const next = parkMiller(recipe.seed);
  const trueA = Float64Array.from({ length: nT }, () => recipe.sdT * normal(next(), next()));
  const trueB = Float64Array.from({ length: nM }, () => recipe.sdM * normal(next(), next()));
  const records: SimulatedRecords = {
    a: new Int32Array(N),
    b: new Int32Array(N),
    y: new Float64Array(N),
    size: new Float64Array(N),
    gross: new Uint8Array(N),
    trueA,
    trueB
  };
  const block = Math.floor(nM / blocks);
  const u = new Float64Array(10);
  for (let k = 0; k < N; k += 1) {
    for (let i = 0; i < 10; i += 1) u[i] = next();
    const [u1 = 0, u2 = 0, u3 = 0, u4 = 0, u5 = 0, u6 = 0, u7 = 0, u8 = 0, u9 = 0, u10 = 0] = u;
    const a = Math.floor(u1 * nT);
    const b = u2 < recipe.pHome ? (a % blocks) * block + Math.floor(u3 * block) : Math.floor(u3 * nM);
    const size = Math.floor(Math.exp(Math.log(9000) + 0.6 * normal(u4, u5)) + 0.5);
    const noise = normal(u6, u7) * Math.sqrt(recipe.s0 ** 2 + ((100 * recipe.kg) / size) ** 2);
    const error = u8 < recipe.pGross ? (u9 < 0.5 ? -1 : 1) * (4 + 6 * u10) : 0;
    const y = recipe.mu + (trueA[a] ?? NaN) + (trueB[b] ?? NaN) + noise + error;
    records.a[k] = a;
    records.b[k] = b;
    records.size[k] = size;
    records.gross[k] = error === 0 ? 0 : 1;
    records.y[k] = Math.floor(y * 1e6 + 0.5) / 1e6;
  }
  return records;
}

/** The layout of the timing: as many levels and records as a large operator has in a year. */
export const LARGE_RECIPE: CrossedRecipe = {
  seed: 20261125,
  nT: 300,
  nM: 900,
  N: 200_000,
  mu: 0.12,
  sdT: 0.35,
  sdM: 0.12,
  s0: 0.4,
  kg: 60,
  blocks: 20,
  pHome: 0.5,
  pGross: 0
};
