import { solveLinear } from '#lib/core/statistics/linear-solve.ts';

/** A crossed layout with given standard deviations, solved the long way: whole matrices, nothing eliminated. */
export interface DenseLayout {
  readonly a: readonly number[];
  readonly b: readonly number[];
  readonly y: readonly number[];
  readonly weights: readonly number[];
  readonly sdA: number;
  readonly sdB: number;
  readonly sigma: number;
}

function solve(matrix: readonly number[][], right: readonly number[]): Float64Array {
  return solveLinear(
    matrix.map((row) => Float64Array.from(row)),
    Float64Array.from(right)
  );
}

/** Log determinant by elimination without exchange, for a positive definite matrix. */
function logDeterminant(matrix: readonly number[][]): number {
  const rows = matrix.map((row) => [...row]);
  let sum = 0;
  for (const [k, pivotRow] of rows.entries()) {
    const pivot = pivotRow[k] ?? NaN;
    sum += Math.log(pivot);
    for (const row of rows.slice(k + 1)) {
      const factor = (row[k] ?? NaN) / pivot;
      pivotRow.forEach((value, j) => (row[j] = (row[j] ?? NaN) - factor * value));
    }
  }
  return sum;
}

const product = (x: ArrayLike<number>, y: readonly number[]): number =>
  y.reduce((sum, value, i) => sum + value * (x[i] ?? NaN), 0);

/** -2 log restricted likelihood from the full covariance matrix of the records. */
export function denseCriterion({ a, b, y, weights, sdA, sdB, sigma }: DenseLayout): number {
  const covariance = y.map((_, i) =>
    y.map(
      (_value, j) =>
        (a[i] === a[j] ? sdA ** 2 : 0) +
        (b[i] === b[j] ? sdB ** 2 : 0) +
        (i === j ? sigma ** 2 / (weights[i] ?? NaN) : 0)
    )
  );
  const ones = y.map(() => 1);
  const precision = product(solve(covariance, ones), ones);
  const mean = product(solve(covariance, ones), [...y]) / precision;
  const residuals = y.map((value) => value - mean);
  const quadratic = product(solve(covariance, residuals), residuals);
  return (
    (y.length - 1) * Math.log(2 * Math.PI) + logDeterminant(covariance) + Math.log(precision) + quadratic
  );
}

/** Inverse of Henderson's equations for (mean, effects of a, effects of b): error covariances of the predictions. */
export function denseErrorCovariance(layout: DenseLayout, levelsA: number, levelsB: number): number[][] {
  const { a, b, y, weights, sdA, sdB, sigma } = layout;
  const size = 1 + levelsA + levelsB;
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const add = (i: number, j: number, value: number): void => {
    const row = matrix[i];
    if (row !== undefined) row[j] = (row[j] ?? 0) + value;
  };
  y.forEach((_, k) => {
    const columns = [0, 1 + (a[k] ?? NaN), 1 + levelsA + (b[k] ?? NaN)];
    for (const i of columns) for (const j of columns) add(i, j, (weights[k] ?? NaN) / sigma ** 2);
  });
  for (let i = 0; i < levelsA; i += 1) add(1 + i, 1 + i, 1 / sdA ** 2);
  for (let i = 0; i < levelsB; i += 1) add(1 + levelsA + i, 1 + levelsA + i, 1 / sdB ** 2);
  return matrix.map((_, i) => [
    ...solve(
      matrix,
      matrix.map((_row, j) => (i === j ? 1 : 0))
    )
  ]);
}
