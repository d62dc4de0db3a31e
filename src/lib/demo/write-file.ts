import { demoMonths } from './calendar.ts';
import type { PlannedFile } from './file-plan.ts';
import { writeHeader, writeRow, writeTotals, writeUnits } from './layouts/write.ts';
import type { Months } from './months.ts';
import { chance, seeded, whole } from './random.ts';
import type { DemoRow } from './row.ts';
import { demoStations } from './stations.ts';
import type { World } from './world.ts';

/** What a writer is told of while it writes: each row with its line, and each line that is no uplift. */
export interface Listener {
  readonly row?: (row: DemoRow, line: number) => void;
  readonly other?: (kind: string, line: number) => void;
}

const chunkCharacters = 200_000;

/** A file as it grows: text not yet handed out, and the line it has come to. */
class Growing {
  line = 1;
  #text = '';

  add(text: string): void {
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) this.line++;
    this.#text += text;
  }

  get isFull(): boolean {
    return this.#text.length >= chunkCharacters;
  }

  take(): string {
    const text = this.#text;
    this.#text = '';
    return text;
  }
}

function start(file: PlannedFile, growing: Growing): void {
  const { layout } = file;
  if (layout.hasByteOrderMark) growing.add('\uFEFF');
  if (layout.name === 'C') {
    growing.add(`Quillon Air, fuel uplifts${layout.lineEnd}`);
    growing.add(`Stations: ${demoStations.map((entry) => entry.name).join(', ')}${layout.lineEnd}`);
    growing.add(`Month: ${demoMonths[file.month]?.name ?? ''}${layout.lineEnd}${layout.lineEnd}`);
  }
  growing.add(writeHeader(layout));
  if (layout.hasUnitsRow) growing.add(writeUnits(layout));
}

/** Lines between days that are no uplift: a blank line, the header of the next page, a note. */
function between(file: PlannedFile, growing: Growing, kindDraw: number, listener: Listener): void {
  const { layout } = file;
  const kind = ['blank-line', 'header-repeated', 'note-line'][kindDraw] ?? 'blank-line';
  listener.other?.(kind, growing.line);
  if (kind === 'header-repeated') growing.add(writeHeader(layout));
  else growing.add((kind === 'note-line' ? 'checked by the duty office' : '') + layout.lineEnd);
}

/** The volume of a row as it stands in the file, or 0 where no number stands there. */
const writtenVolumeL = (row: DemoRow): number =>
  row.cells?.['volume'] === undefined && row.volumeL > 0 ? row.volumeL : 0;

/** Writes a month's file in pieces, telling the listener what stands where. */
export function* writeFile(
  world: World,
  months: Months,
  file: PlannedFile,
  listener: Listener
): Generator<string> {
  const { layout } = file;
  const growing = new Growing();
  const random = seeded(world.seed, 31, file.month);
  let volumeL = 0;
  start(file, growing);
  for (const rows of months.days(file.month, layout.name)) {
    for (const row of rows) {
      listener.row?.(row, growing.line);
      growing.add(writeRow(layout, row));
      volumeL += writtenVolumeL(row);
      if (growing.isFull) yield growing.take();
    }
    if (world.faults && chance(random, 0.12)) between(file, growing, whole(random, 3), listener);
  }
  if (layout.hasTotals) {
    listener.other?.('totals-line', growing.line);
    growing.add(writeTotals(layout, volumeL));
  }
  yield growing.take();
}
