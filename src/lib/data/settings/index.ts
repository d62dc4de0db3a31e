import type { EventRecord } from '#lib/data/record/index.ts';
import { exampleLimits, type LimitSet } from './limits.ts';
import type { MergedName } from './merged-names.ts';
import { defaultMethod, type MethodChoices } from './method.ts';
import type { StationEntry, TypeEntry, VehicleEntry } from './registers.ts';

export * from './limits.ts';
export * from './merged-names.ts';
export * from './method.ts';
export * from './registers.ts';

/** All that a person has decided or entered, apart from the records. */
export interface Settings {
  readonly limitSets: readonly LimitSet[];
  readonly method: MethodChoices;
  readonly types: readonly TypeEntry[];
  readonly vehicles: readonly VehicleEntry[];
  readonly stations: readonly StationEntry[];
  readonly events: readonly EventRecord[];
  /** Spellings counted as another name; the sources stay as they are. */
  readonly mergedNames: readonly MergedName[];
}

export const defaultSettings: Settings = {
  limitSets: [exampleLimits],
  method: defaultMethod,
  types: [],
  vehicles: [],
  stations: [],
  events: [],
  mergedNames: []
};
