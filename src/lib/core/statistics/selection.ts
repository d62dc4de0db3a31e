import { runSteps, stretches, type Steps } from './steps.ts';

/** Below this many values sorting is the quickest way. */
const fewestForHistogram = 256;
const bins = 1024;

/**
 * The values that would stand at some places if all were sorted, without sorting all: a histogram finds the bins that
 * hold the places, and each is refined in turn until few values are left. `places` ascend and are below the length;
 * the values hold no NaN and stay as they are.
 */
export function valuesAtPlaces(values: Float64Array, places: readonly number[]): number[] {
  return runSteps(valuesAtPlacesSteps(values, places));
}

function* valuesAtPlacesSteps(values: Float64Array, places: readonly number[]): Steps<number[]> {
  if (values.length <= fewestForHistogram) {
    const sorted = values.slice().sort();
    return places.map((place) => sorted[place] ?? NaN);
  }
  const { least, greatest } = yield* rangeOf(values);
  if (least === greatest) return places.map(() => least);
  const scale = bins / (greatest - least);
  // Too wide or too narrow for a scale: then no histogram can part them.
  if (!(scale > 0 && scale < Infinity)) {
    const sorted = values.slice().sort();
    return places.map((place) => sorted[place] ?? NaN);
  }
  const binOf = new Uint16Array(values.length);
  const counts = new Uint32Array(bins);
  yield* stretches(values.length, (from, to) => {
    for (let i = from; i < to; i++) {
      const bin = Math.min(bins - 1, Math.floor(((values[i] as number) - least) * scale));
      binOf[i] = bin;
      counts[bin] = (counts[bin] as number) + 1;
    }
  });
  const found: number[] = [];
  let bin = 0;
  let before = 0;
  while (found.length < places.length) {
    const place = places[found.length] ?? 0;
    while (place >= before + (counts[bin] ?? 0) && bin < bins - 1) before += counts[bin++] ?? 0;
    const end = before + (counts[bin] ?? 0);
    const inside = places.slice(found.length).filter((other) => other < end);
    const ofBin = new Float64Array(counts[bin] ?? 0);
    const wanted = bin;
    let taken = 0;
    yield* stretches(values.length, (from, to) => {
      let n = taken;
      for (let i = from; i < to && n < ofBin.length; i++) {
        if (binOf[i] === wanted) ofBin[n++] = values[i] as number;
      }
      taken = n;
    });
    const offset = before;
    found.push(
      ...(yield* valuesAtPlacesSteps(
        ofBin,
        inside.map((other) => other - offset)
      ))
    );
  }
  return found;
}

function* rangeOf(values: Float64Array): Steps<{ least: number; greatest: number }> {
  let least = Infinity;
  let greatest = -Infinity;
  yield* stretches(values.length, (from, to) => {
    let [low, high] = [least, greatest];
    for (let i = from; i < to; i++) {
      const value = values[i] as number;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    [least, greatest] = [low, high];
  });
  return { least, greatest };
}

/**
 * Several quantiles (type 7, as `quantileSorted`) of values in any order without NaN, for probabilities that ascend:
 * the same numbers as by sorting.
 */
export function quantilesUnsorted(values: Float64Array, probabilities: readonly number[]): number[] {
  return runSteps(quantilesUnsortedSteps(values, probabilities));
}

/** The same in steps. */
export function* quantilesUnsortedSteps(
  values: Float64Array,
  probabilities: readonly number[]
): Steps<number[]> {
  const n = values.length;
  if (n === 0) return probabilities.map(() => NaN);
  const positions = probabilities.map((probability) => (n - 1) * probability);
  const places = [
    ...new Set(positions.flatMap((at) => [Math.floor(at), Math.min(Math.floor(at) + 1, n - 1)]))
  ].sort((a, b) => a - b);
  const found = yield* valuesAtPlacesSteps(values, places);
  const at = (place: number) => found[places.indexOf(place)] ?? NaN;
  return positions.map((position) => {
    const below = Math.floor(position);
    const low = at(below);
    const high = at(Math.min(below + 1, n - 1));
    return position === below ? low : low + (high - low) * (position - below);
  });
}
