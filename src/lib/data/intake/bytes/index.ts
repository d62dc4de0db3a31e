export { headText } from './decode.ts';
export { detectDelimiter, type DelimiterFit, type DelimiterReport } from './dialect.ts';
export {
  EncodingSurvey,
  guessEncoding,
  surveyEncoding,
  headBytes,
  type EncodingGuess,
  type EncodingHow,
  type EncodingReport
} from './encoding.ts';
export { firstWordsOf } from './first-words.ts';
export type { LineEndCounts } from './line-ends.ts';
export { displayName } from './display-name.ts';
export { openFile, type NotOpened, type Opened, type OpenedFile, type OpenFault } from './open.ts';
export { recogniseFile, type FileKind } from './recognise.ts';
export { largestFile } from './unpack.ts';
