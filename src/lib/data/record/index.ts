export * from './definition.ts';
export * from './event.ts';
export * from './uplift.ts';
export * from './computed.ts';
export * from './unit-choices.ts';
