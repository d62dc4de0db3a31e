/** Why a file was not opened as a table. */
export const openFaultWords = {
  empty: 'the file is empty',
  webPage: 'the file is a web page, perhaps one that asks to sign in: export it as CSV',
  spreadsheet: 'the file is a workbook: save its sheet as CSV and choose that',
  oldSpreadsheet: 'the file is a workbook of an older kind: save its sheet as CSV and choose that',
  pdf: 'the file is a PDF: ask the sender for the table behind it as CSV',
  otherArchive: 'the file is packed in a way that is not opened here: unpack it and choose what is in it',
  picture: 'the file is a picture: ask the sender for the table as CSV',
  document: 'the file is a document of a word processor: save its table as CSV and choose that',
  json: 'the file is JSON, not a table: export it as CSV',
  binary: 'the file is not text',
  damaged: 'the archive is damaged',
  unpacksTooLarge: 'what is packed in it is larger than 500 MB',
  stopped: 'reading was stopped',
  locked: 'the archive asks for a password',
  methodUnknown: 'the archive is packed in a way that is not known here',
  nestedArchive: 'an archive in an archive is not opened',
  tooManyFiles: 'the archive holds too many files'
} as const;
