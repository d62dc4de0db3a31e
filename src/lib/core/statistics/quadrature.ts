export interface Quadrature {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/** Legendre polynomial of a degree and its derivative at x, by the three-term recurrence. */
function legendre(degree: number, x: number): { value: number; slope: number } {
  let before = 1;
  let value = x;
  for (let k = 2; k <= degree; k += 1) {
    [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k];
  }
  return { value, slope: (degree * (x * value - before)) / (x * x - 1) };
}

/** Gauss-Legendre nodes and weights over [low, high]; exact for polynomials of degree 2 count - 1. */
export function gaussLegendre(count: number, low: number, high: number): Quadrature {
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  const half = (high - low) / 2;
  for (let i = 0; i < count; i += 1) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    for (let step = 0; step < 10; step += 1) {
      const { value, slope } = legendre(count, x);
      x -= value / slope;
    }
    const { slope } = legendre(count, x);
    nodes[i] = low + half * (x + 1);
    weights[i] = (2 * half) / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}

/** Integral of a smooth function over [low, high] by Gauss-Legendre nodes. */
export function integrate(f: (x: number) => number, low: number, high: number, count = 64): number {
  const { nodes, weights } = gaussLegendre(count, low, high);
  return nodes.reduce((sum, x, i) => sum + (weights[i] ?? NaN) * f(x), 0);
}
