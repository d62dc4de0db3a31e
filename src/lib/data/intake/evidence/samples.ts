/** A cell kept as an example, with the line it stands on. */
export interface CellSample {
  readonly line: number;
  readonly text: string;
}

/** Longest text kept as an example. */
const longestSample = 80;

/** Keeps the first three. */
export function keepSample(samples: CellSample[], line: number, text: string): void {
  if (samples.length < 3) samples.push({ line, text: text.slice(0, longestSample) });
}
