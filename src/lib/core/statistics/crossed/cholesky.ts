import type { Steps } from '../steps.ts';

/** Multiplications between two rests. */
const workAStep = 1 << 20;

/** Dot product of two stretches of one array, `length` long, by fours. */
function dot(matrix: Float64Array, first: number, second: number, length: number): number {
  let [s0, s1, s2, s3] = [0, 0, 0, 0];
  const fours = length - (length % 4);
  let k = 0;
  for (; k < fours; k += 4) {
    s0 += (matrix[first + k] as number) * (matrix[second + k] as number);
    s1 += (matrix[first + k + 1] as number) * (matrix[second + k + 1] as number);
    s2 += (matrix[first + k + 2] as number) * (matrix[second + k + 2] as number);
    s3 += (matrix[first + k + 3] as number) * (matrix[second + k + 3] as number);
  }
  for (; k < length; k += 1) s0 += (matrix[first + k] as number) * (matrix[second + k] as number);
  return s0 + s1 + (s2 + s3);
}

/**
 * Cholesky factor C, S = C C', in place in the lower triangle of a row-major matrix. A pivot that is not above 0
 * becomes NaN, and with it all that follows.
 */
export function* choleskySteps(matrix: Float64Array, size: number): Steps<void> {
  let work = 0;
  for (let i = 0; i < size; i += 1) {
    eliminateRow(matrix, size, i);
    work += (i * i) / 2;
    if (work < workAStep) continue;
    work = 0;
    yield;
  }
}

/** Row i of the factor from those above it. */
function eliminateRow(matrix: Float64Array, size: number, i: number): void {
  const row = i * size;
  for (let j = 0; j < i; j += 1) {
    const at = row + j;
    matrix[at] = ((matrix[at] as number) - dot(matrix, row, j * size, j)) / (matrix[j * size + j] as number);
  }
  const pivot = (matrix[row + i] as number) - dot(matrix, row, row, i);
  matrix[row + i] = pivot > 0 ? Math.sqrt(pivot) : NaN;
}

/** The inverse of the leading `count` rows of a lower triangular factor, row-major, `count` wide. */
export function* invertTriangle(factor: Float64Array, size: number, count: number): Steps<Float64Array> {
  let work = 0;
  const inverse = new Float64Array(count * count);
  for (let i = 0; i < count; i += 1) {
    const row = i * count;
    const pivot = factor[i * size + i] as number;
    for (let k = 0; k < i; k += 1) {
      const multiple = -(factor[i * size + k] as number) / pivot;
      const other = k * count;
      for (let j = 0; j <= k; j += 1) {
        inverse[row + j] = (inverse[row + j] as number) + multiple * (inverse[other + j] as number);
      }
    }
    inverse[row + i] = 1 / pivot;
    work += (i * i) / 2;
    if (work < workAStep) continue;
    work = 0;
    yield;
  }
  return inverse;
}

/** Adds the outer product of row k of a triangle with itself to the lower triangle of `target`, all `width` wide. */
export function addOuterProduct(
  target: Float64Array,
  triangle: Float64Array,
  width: number,
  k: number
): void {
  const from = k * width;
  for (let i = 0; i <= k; i += 1) {
    const left = triangle[from + i] as number;
    const row = i * width;
    for (let j = 0; j <= i; j += 1) {
      target[row + j] = (target[row + j] as number) + left * (triangle[from + j] as number);
    }
  }
}

/** Solves C' x = right for the leading `count` rows of a lower triangular factor. */
export function backSubstitute(factor: Float64Array, size: number, right: Float64Array): Float64Array {
  const x = right.slice();
  for (let i = x.length - 1; i >= 0; i -= 1) {
    const value = (x[i] as number) / (factor[i * size + i] as number);
    x[i] = value;
    for (let j = 0; j < i; j += 1) x[j] = (x[j] as number) - value * (factor[i * size + j] as number);
  }
  return x;
}
