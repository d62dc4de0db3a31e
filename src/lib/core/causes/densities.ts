const rootTwoPi = Math.sqrt(2 * Math.PI);

/** Figures and log ratios that nothing explains are taken to be anywhere between -3 and 3. */
export const unknownDensity = 1 / 6;

const unknownReach = 3;

/** The same of a log ratio that may lie beyond: rarer by e for each e it is further out, so that it is never ruled out. */
export const unexplainedDensity = (logRatio: number): number =>
  Math.abs(logRatio) > unknownReach
    ? unknownDensity * Math.exp(unknownReach - Math.abs(logRatio))
    : unknownDensity;

export const normalDensity = (x: number, sd: number): number => {
  const z = x / sd;
  return Math.exp(-0.5 * z * z) / (sd * rootTwoPi);
};

/** Double exponential of the given mean size. */
export const laplaceDensity = (x: number, size: number): number => Math.exp(-Math.abs(x) / size) / (2 * size);
