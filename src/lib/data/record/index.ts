export * from './definition.ts';
export * from './event.ts';
export * from './uplift.ts';
