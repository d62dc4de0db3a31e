import type { NameFieldName } from '#lib/data/record/index.ts';
import type { QuestionContext } from './context.ts';

/** A name and the refuellings of the whole workspace that carry it. */
export interface NameCount {
  readonly name: string;
  readonly refuellings: number;
}

/** Most names offered of one field; a field with more is one a person types into. */
const mostNames = 2_000;

export interface NamesAnswer {
  readonly field: NameFieldName;
  readonly names: readonly NameCount[];
}

/** The names of one field to choose from, '' among them where some refuellings name none. */
export function names(context: QuestionContext, asked: { readonly field: NameFieldName }): NamesAnswer {
  const column = context.ledger.source.columns.code(asked.field);
  const counts = new Uint32Array(column.dictionary.size);
  const codes = column.codes();
  const { refuellings } = context.select({});
  for (let i = 0; i < refuellings.length; i++) {
    const code = codes[refuellings[i] ?? 0] ?? 0;
    counts[code] = (counts[code] ?? 0) + 1;
  }
  const found: NameCount[] = [];
  counts.forEach((count, code) => {
    if (count > 0) found.push({ name: column.dictionary.text(code), refuellings: count });
  });
  found.sort((a, b) => (a.name < b.name ? -1 : 1));
  return { field: asked.field, names: found.slice(0, mostNames) };
}
