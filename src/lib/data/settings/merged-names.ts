import type { NameFieldName } from '#lib/data/record/index.ts';

/** A spelling that a person said stands for another name of the same field. */
export interface MergedName {
  readonly field: NameFieldName;
  readonly from: string;
  readonly to: string;
}
