export * from './fates.ts';
