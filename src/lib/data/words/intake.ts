/** Why a record was skipped, refused or set aside, with the words on screen and in the account. */
export const reasonWords = {
  header: 'header',
  blank: 'blank record',
  preamble: 'text before the header',
  repeatedHeader: 'the header once more',
  unitsRow: 'row of units below the header',
  totals: 'total of the column above it',
  footer: 'a line of text, not of data',
  otherTable: 'below the header of another table',
  missingTime: 'no time',
  missingStation: 'no station',
  missingTail: 'no tail',
  missingQuantity: 'no volume, meter readings or defuelled amount',
  badNumber: 'not a number',
  badTime: 'not a date and time',
  noSuchDate: 'no such date',
  noClock: 'a date without a time of day, where others of the column have one',
  dateEitherWay: 'the day may stand before the month, as in other dates of the column, or after it',
  otherReading: 'can be read only in another way than the rest of the column',
  negative: 'below zero',
  outOfRange: 'outside what jet fuel can be in this unit',
  unitUnknown: 'unit not known',
  unitMissing: 'no unit',
  unitNotOfField: 'in a unit that this field cannot be given in',
  zoneUnknown: 'local time at a station without a time zone',
  hourMissing: 'local time that the clock change leaves out',
  hourDoubled: 'local time that exists twice at the clock change',
  tooManyCells: 'more cells than the header',
  tooFewCells: 'fewer cells than the header',
  endsInMidRecord: 'the file ends in mid-record',
  totalDoesNotAddUp: 'reads like a total, but is not the sum of the column',
  quoteUnclosed: 'a quote that is never closed',
  textAfterQuote: 'text after a closing quote',
  swallowedLines: 'a quoted cell that has swallowed other records',
  invalidBytes: 'bytes that are not text in the encoding of the file',
  nulBytes: 'NUL bytes',
  controlBytes: 'control characters',
  recordTooLong: 'no end of the record within 1 MB',
  wordUnknown: 'a word of which nobody has said what it means',
  endBeforeStart: 'fuelling ends before it starts',
  sameRecord: 'the same record as one that came before it: the first is kept',
  sameTicket: 'the same ticket of the station on that day with other content: the first is kept',
  sameUplift:
    'the same volume into the same aircraft at the same instant under another ticket: the first is kept'
} as const;
export type ReasonCode = keyof typeof reasonWords;

/** Remarks about a file that are no one record's fault. */
export const noteWords = {
  mixedMarks: 'some numbers of the column can only be read with the other decimal mark',
  mixedDates: 'some dates of the column can only be read in another order',
  extraEmptyCells: 'records with empty cells past the last column',
  missingMarkers: 'words for “no figure”, read as missing',
  serialDates: 'dates kept as spreadsheet day numbers',
  dateOnly: 'dates without a time of day, taken as 00:00 UTC',
  twoDigitYears: 'years of two digits, read as 1980 to 2079',
  densitometerAssumed: 'density taken as read by a densitometer, without glass correction',
  unitNotOfField: 'column in a unit that its field cannot be given in',
  unlikelySize: 'all figures of the column are of a size that no uplift has in this unit',
  zerosNotRead: 'nothing but 0 in a column of gauge readings, read as not recorded',
  densityAt60F: 'density on a scale that refers to 60 °F',
  duplicateHeader: 'two columns with one header',
  headerless: 'no header found',
  mixedLineEnds: 'line ends of more than one kind',
  encodingGuessed: 'the encoding is told from the bytes alone',
  invalidBytes: 'bytes that are not text in the encoding of the file',
  notListed: 'more records of this kind than are listed',
  unitColumn: 'unit taken from another column, record by record',
  computedIgnored: 'computed columns of a Gaugebook export, recomputed here'
} as const;
export type NoteCode = keyof typeof noteWords;

/** Why a file as a whole cannot be read. */
export const problemWords = {
  empty: 'the file is empty',
  tooLarge: 'the file is larger than 500 MB',
  tooManyColumns: 'the file has more than 1,000 columns',
  notText: 'the file is not text: it may be a workbook, an archive or a picture',
  webPage: 'the file is a web page, perhaps one that asks to sign in',
  noRecords: 'the file has no record below its header',
  tooManyRecords:
    'with this file there would be more than 5,000,000 records: remove others first, or choose fewer months',
  stopped: 'reading was stopped',
  notKept: 'in use, but this browser could not keep it: choose the file again after a reload'
} as const;
export type ProblemCode = keyof typeof problemWords;

/** Why a line of an events file is no event. */
export const eventFaultWords = {
  noHeader: 'no header with time, kind, subject and code',
  badTime: 'the time has to be written year first, with its offset from UTC or without a clock',
  unknownKind: 'a kind of event that is not known',
  unknownSubject: 'the subject has to be station, tail, vehicle, meter or supplier',
  noCode: 'no code of the station, tail, vehicle, meter or supplier',
  badForm: 'a broken line'
} as const;
export type EventFaultCode = keyof typeof eventFaultWords;

/** What is asked; `{column}` and `{word}` stand for the header and a word of the file. */
export const questionWords = {
  delimiter: 'What separates the cells?',
  encoding: 'In which encoding is the file?',
  field: 'Which column holds: {column}?',
  columnField: 'What does the column “{column}” hold?',
  clock: 'Which column has the time of day for “{column}”?',
  decimal: 'How are the numbers of “{column}” written?',
  dateOrder: 'In which order are the dates of “{column}” written?',
  twoDigitYear: 'Where is the year in the dates of “{column}”?',
  serial: 'From which year do the day numbers of “{column}” count?',
  unit: 'In which unit is “{column}”?',
  zone: 'Which clock do the times of “{column}” follow?',
  doubledHour: 'A time of “{column}” that exists twice at the clock change: which is meant?',
  bareDate: 'Some dates of “{column}” have no time of day: which is meant?',
  word: 'What does “{word}” mean in “{column}”?',
  ppmLimit: 'Above how many ppm has the check in “{column}” failed?',
  orderedBasis: 'What does “{column}” say?',
  sign: 'What does a plus mean in “{column}”?',
  densityMethod: 'What was the density of “{column}” read with?'
} as const;
export type QuestionKind = keyof typeof questionWords;

/** Answers that are the same for every file. */
export const readingWords = {
  dot: 'the point is the decimal mark',
  comma: 'the comma is the decimal mark',
  dmy: 'day, month, year',
  mdy: 'month, day, year',
  ymd: 'year, month, day',
  '1900': 'from 1900, as most spreadsheets do',
  '1904': 'from 1904, as some spreadsheets do',
  utc: 'UTC',
  station: 'local time at each station',
  earlier: 'the first of the two',
  later: 'the second of the two',
  refuse: 'refuse these records',
  midnight: '00:00',
  passed: 'passed',
  failed: 'failed',
  notDone: 'not done',
  notRecorded: 'not recorded',
  notRequired: 'not required',
  hydrometer: 'glass hydrometer',
  densitometer: 'digital densitometer',
  inLine: 'in-line instrument at the meter',
  totalOnBoard: 'the total on board that was asked for',
  amountToAdd: 'the amount that was to be added',
  gaugeSaysMore: 'the gauge says more than the meter',
  meterSaysMore: 'the meter says more than the gauge',
  none: 'no column'
} as const;
export type ReadingWord = keyof typeof readingWords;

/** Fills the gaps of a question's words. */
export function questionText(kind: QuestionKind, column: string, word = ''): string {
  return questionWords[kind].split('{column}').join(column).split('{word}').join(word);
}
