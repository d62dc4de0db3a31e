import { fieldNamed, splitKey } from '#lib/data/record/index.ts';
import type { Layout } from '../layout.ts';
import type { CellReader } from './cell-reader.ts';
import { MisfitReader } from './misfit-reader.ts';
import { NumberReader } from './number-reader.ts';
import { stateTexts, StateReader } from './state-reader.ts';
import { ConstantReader, NameReader, TextReader } from './text-readers.ts';
import { TimeReader } from './time-reader.ts';

/** The readers of a layout, made once per file. */
export interface Readers {
  /** In the order they read: figures first, names last, so that a refused record leaves no name behind. */
  readonly all: readonly CellReader[];
  readonly numbers: readonly NumberReader[];
  readonly times: ReadonlyMap<string, TimeReader>;
  readonly names: ReadonlyMap<string, NameReader>;
  readonly constants: ReadonlySet<string>;
}

export function makeReaders(layout: Layout): Readers {
  const { columns, ownExport } = layout;
  const constants = layout.constants.map(([key, text]) => new ConstantReader(key, text, knownTexts(key)));
  const numbers = columns.flatMap((reading) =>
    reading.kind === 'number' ? [new NumberReader(reading)] : []
  );
  const states = columns.flatMap((reading) =>
    reading.kind === 'check' || reading.kind === 'choice' ? [new StateReader(reading)] : []
  );
  const names = columns.flatMap(({ kind, key, column }) =>
    kind === 'name' ? [new NameReader(key, column, ownExport)] : []
  );
  const texts = columns.flatMap(({ kind, key, column }) =>
    kind === 'text' ? [new TextReader(key, column, ownExport)] : []
  );
  const misfits = columns.flatMap(({ kind, key, column }) =>
    kind === 'misfit' ? [new MisfitReader(key, column)] : []
  );
  const station = columns.find(({ key }) => key === 'station')?.column ?? null;
  const fixedStation = layout.constants.find(([key]) => key === 'station')?.[1] ?? '';
  const zones = new Map(layout.stationZones);
  const times = columns.flatMap((reading) =>
    reading.kind === 'time' ? [new TimeReader(reading, station, fixedStation, zones, layout.checked)] : []
  );
  return {
    all: [...misfits, ...times, ...numbers, ...states, ...constants, ...names, ...texts],
    numbers,
    times: new Map(times.map((reader) => [reader.key, reader])),
    names: new Map(names.map((reader) => [reader.key, reader])),
    constants: new Set(constants.map(({ key }) => key))
  };
}

/** Texts whose codes are fixed, for a constant of a check or a choice. */
function knownTexts(key: string): readonly string[] {
  const { kind } = fieldNamed(splitKey(key).name);
  return kind === 'choice' || kind === 'check' ? stateTexts(key) : [];
}
