export { editions, editionTitles } from './editions.ts';
export type { Edition } from './editions.ts';
export { density15, densityAt, densitySlopeKgM3PerC, volumeCorrectionFactor } from './correction.ts';
export { hydrometerCorrected } from './hydrometer.ts';
export {
  density15From60F,
  density15FromDegreeApi,
  density15FromRelativeDensity,
  density60F
} from './sixty-fahrenheit.ts';
export { observedValidity, validities, validity } from './validity.ts';
export type { Validity } from './validity.ts';
export { confidences, gradeCodes, gradeDensityAt15, gradeLimits, gradeNamed, isGradeCode } from './grades.ts';
export type { Confidence, DensityRange, GradeCode, GradeLimits } from './grades.ts';
export { constantsText } from './constants-text.ts';
