import type { Method } from './method.ts';
import { crossed } from './methods-crossed.ts';
import { intervals, units } from './methods-rates.ts';
import { changes, charts, runLengths } from './methods-series.ts';
import { summaries } from './methods-values.ts';

/** Every method of the reference: a function from the input of a case to the names of its expected values. */
export const METHODS: Readonly<Record<string, Method>> = {
  ...intervals,
  ...charts,
  ...runLengths,
  ...changes,
  ...summaries,
  ...units,
  ...crossed
};
