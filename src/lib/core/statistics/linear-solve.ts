/**
 * Solves a small dense system by elimination with partial pivoting; the rows and the right-hand side are consumed.
 * Throws on a singular system.
 */
export function solveLinear(rows: Float64Array[], right: Float64Array): Float64Array {
  const n = right.length;
  const at = (row: number, column: number): number => rows[row]?.[column] ?? NaN;
  for (let k = 0; k < n; k += 1) {
    let pivot = k;
    for (let i = k + 1; i < n; i += 1) if (Math.abs(at(i, k)) > Math.abs(at(pivot, k))) pivot = i;
    if (!(Math.abs(at(pivot, k)) > 0)) throw new RangeError(`system: column ${k}, need a pivot other than 0`);
    swap(rows, k, pivot);
    [right[k], right[pivot]] = [right[pivot] ?? NaN, right[k] ?? NaN];
    for (let i = k + 1; i < n; i += 1) eliminate(rows, right, k, i);
  }
  for (let k = n - 1; k >= 0; k -= 1) {
    let sum = right[k] ?? NaN;
    for (let j = k + 1; j < n; j += 1) sum -= at(k, j) * (right[j] ?? NaN);
    right[k] = sum / at(k, k);
  }
  return right;
}

function swap(rows: Float64Array[], i: number, j: number): void {
  const [first, second] = [rows[i], rows[j]];
  if (first !== undefined && second !== undefined) [rows[i], rows[j]] = [second, first];
}

/** Takes the multiple of row k from row i that clears its column k. */
function eliminate(rows: Float64Array[], right: Float64Array, k: number, i: number): void {
  const [pivot, row] = [rows[k], rows[i]];
  if (pivot === undefined || row === undefined) return;
  const factor = (row[k] ?? NaN) / (pivot[k] ?? NaN);
  for (let j = k; j < row.length; j += 1) row[j] = (row[j] ?? NaN) - factor * (pivot[j] ?? NaN);
  right[i] = (right[i] ?? NaN) - factor * (right[k] ?? NaN);
}
