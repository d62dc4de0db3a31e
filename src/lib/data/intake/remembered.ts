import type { NoteCode } from '#lib/data/words/index.ts';
import { encodingOf, type CutFile } from './cut-file.ts';
import type { Layout, RememberedLayout } from './layout.ts';

/** Remarks that come with the layout; the others were about the file that settled it. */
const lastingNotes: ReadonlySet<NoteCode> = new Set([
  'densitometerAssumed',
  'unitNotOfField',
  'densityAt60F',
  'computedIgnored',
  'unitColumn'
]);

/**
 * A remembered layout made to fit another file with the same header: with the encoding and the place of the header in
 * that file, the time zones of today, and nothing of what the first file held.
 */
export function fitRemembered(
  remembered: RememberedLayout,
  file: CutFile,
  stationZones: Layout['stationZones']
): RememberedLayout {
  const { layout } = remembered;
  return {
    ...remembered,
    layout: {
      ...layout,
      dialect: file.dialect,
      encoding: encodingOf(file),
      lineEnds: 'not counted',
      headerLine: file.head.header.line,
      width: file.head.width,
      stationZones,
      checked: false,
      findings: layout.findings.map((finding) => ({ ...finding, agree: 0, disagree: 0, samples: [] })),
      notes: layout.notes.filter(({ code }) => lastingNotes.has(code))
    }
  };
}
