/**
 * The crossed effects of 300 aircraft and 900 meters over 200,000 refuellings made up here, plain and robust, beside
 * bare papaparse on as many records of a file.
 */
import Papa from 'papaparse';
import { fitCrossed, fitCrossedRobust } from '#lib/core/statistics/index.ts';

const refuellings = 200_000;
const tails = 300;
const meters = 900;

/** Numbers of [0, 1) from a seed: a linear congruence (Numerical Recipes, ranqd1) is random enough for a load. */
function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
}

/** Records with effects of both kinds, noise that small masses feel more, and one gross error in a hundred. */
function madeUp() {
  const random = uniform(1);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const ofTail = Float64Array.from({ length: tails }, () => 0.3 * normal());
  const ofMeter = Float64Array.from({ length: meters }, () => 0.2 * normal());
  const a = new Int32Array(refuellings);
  const b = new Int32Array(refuellings);
  const y = new Float64Array(refuellings);
  const size = new Float64Array(refuellings);
  for (let k = 0; k < refuellings; k++) {
    const tail = Math.floor(random() * tails);
    const meter = Math.floor(random() * meters);
    const massKg = 500 + 30_000 * random() ** 2;
    const gross = random() < 0.01 ? 40 * normal() : 0;
    a[k] = tail;
    b[k] = meter;
    size[k] = massKg;
    y[k] = (ofTail[tail] ?? 0) + (ofMeter[meter] ?? 0) + normal() * Math.hypot(0.5, 3000 / massKg) + gross;
  }
  return { records: { a, b, y }, size, ofTail };
}

function timed<T>(work: () => T): { result: T; ms: number } {
  const start = performance.now();
  const result = work();
  return { result, ms: performance.now() - start };
}

/** The header and so many records of a file. */
async function headOf(file: Blob): Promise<string> {
  const text = await file.slice(0, refuellings * 256).text();
  let at = 0;
  for (let line = 0; line <= refuellings && at < text.length; line++)
    at = text.indexOf('\n', at) + 1 || text.length;
  return text.slice(0, at);
}

/** Largest difference between the effects found and those put in, both less their means, %. */
function farthest(found: Float64Array, put: Float64Array): number {
  const meanOf = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [ofFound, ofPut] = [meanOf(found), meanOf(put)];
  return found.reduce(
    (most, value, i) => Math.max(most, Math.abs(value - ofFound - ((put[i] ?? NaN) - ofPut))),
    0
  );
}

async function measure(file: Blob) {
  const text = await headOf(file);
  const yardstick = timed(() => Papa.parse(text, { fastMode: false }).data.length);
  const { records, size, ofTail } = madeUp();
  const plain = timed(() => fitCrossed(records));
  const robust = timed(() => fitCrossedRobust(records, { size }));
  return {
    rows: yardstick.result - 1,
    yardstickMs: yardstick.ms,
    plainMs: plain.ms,
    robustMs: robust.ms,
    farthestPercent: robust.result.estimable ? farthest(robust.result.a.effect, ofTail) : NaN
  };
}

self.onmessage = ({ data }: MessageEvent<File>) => {
  void measure(data).then((measured) => self.postMessage(measured));
};
