import type { Account } from './account.ts';
import type { Layout, Note } from './layout.ts';
import type { CellCounts } from './read/cell-counts.ts';
import type { FateList } from './read/record-fates.ts';
import type { Source } from './source.ts';

/** The account of a file that was read by a layout. Its hash and program are the caller's to fill in. */
export function accountOf(
  source: Source,
  layout: Layout,
  fates: FateList,
  cells: CellCounts,
  notes: readonly Note[]
): Account {
  const marks = layout.columns.flatMap((column) =>
    column.kind === 'number' && column.proven ? [column.marks] : []
  );
  const groups = marks.map(({ group }) => group).filter((group) => group !== null);
  return {
    format: 'account/1',
    program: 'Gaugebook',
    file: { name: source.name, bytes: source.blob.size, sha256: null },
    encoding: layout.encoding,
    delimiter: layout.dialect.delimiter,
    decimalMark: onlyOne(marks.map(({ decimal }) => decimal)),
    groupMark: onlyOne(groups),
    lineEnds: layout.lineEnds,
    headerLine: layout.headerLine,
    columns: layout.findings.map(({ samples: _samples, proof: _proof, ...finding }) => ({
      ...finding,
      agree: cells.agree(finding.field ?? ''),
      disagree: cells.disagree(finding.index)
    })),
    questions: layout.questions,
    counts: fates.counts,
    records: fates.records,
    notes: [...layout.notes, ...notes, ...fates.notes()]
  };
}

/** The value that all share, null where there is none or they differ. */
function onlyOne(values: readonly string[]): string | null {
  const [first] = values;
  return first !== undefined && values.every((value) => value === first) ? first : null;
}
