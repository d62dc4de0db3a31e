export { headText } from './decode.ts';
export { detectDelimiter, type DelimiterFit, type DelimiterReport } from './dialect.ts';
export {
  guessEncoding,
  surveyEncoding,
  headBytes,
  type EncodingGuess,
  type EncodingHow,
  type EncodingReport
} from './encoding.ts';
export type { LineEndCounts } from './line-ends.ts';
