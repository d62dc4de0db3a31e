import type { EventKind } from '#lib/data/record/index.ts';

export const eventKindWords: Record<EventKind, string> = {
  meterExchange: 'meter exchanged',
  meterProving: 'meter proved',
  gaugeWork: 'work on the gauges',
  supplierChange: 'supplier changed',
  filterChange: 'filter changed',
  stationOpening: 'station opened',
  other: 'other'
};
