/** Kinds of event that can move a series; the index is the stored code. */
export const eventKinds = [
  'meterExchange',
  'meterProving',
  'gaugeWork',
  'supplierChange',
  'filterChange',
  'stationOpening',
  'other'
] as const;
export type EventKind = (typeof eventKinds)[number];

/** What an event is about. */
export const eventSubjects = ['station', 'tail', 'vehicle', 'meter', 'supplier'] as const;
export type EventSubject = (typeof eventSubjects)[number];

/** Something that happened to an aircraft, a vehicle or a station and may explain a step in its series. */
export interface EventRecord {
  /** Milliseconds since 1970, UTC. */
  readonly timeMs: number;
  readonly kind: EventKind;
  readonly subject: EventSubject;
  /** The code of the station, tail, vehicle, meter or supplier. */
  readonly code: string;
  readonly note: string;
}

/** Columns of an events file, with the words its header may use. */
export const eventFields = [
  { name: 'time', headerWords: ['time', 'date', 'date time'] },
  { name: 'kind', headerWords: ['kind', 'event', 'what'] },
  { name: 'subject', headerWords: ['subject', 'about', 'object'] },
  { name: 'code', headerWords: ['code', 'id', 'name', 'which'] },
  { name: 'note', headerWords: ['note', 'remarks', 'comment'] }
] as const;
