export * from './causes.ts';
export * from './cautions.ts';
export * from './fates.ts';
export * from './intake.ts';
export * from './ledger.ts';
export * from './opening.ts';
export * from './reconciliation.ts';
export * from './record.ts';
