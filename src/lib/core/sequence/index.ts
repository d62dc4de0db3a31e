export { orderByCodeAndTime } from './order.ts';
export { defaultJoinSettings, gaugesOfRefuellings, joinRefuellings } from './join.ts';
export type { JoinSettings, TicketRows } from './join.ts';
export { chainSectors, defaultChainSettings, linkSectors } from './chain.ts';
export type { Chain, ChainSettings, Links, SectorRows } from './chain.ts';
export { sequenceBits, sequenceFlags } from './flags.ts';
export type { SequenceFlag } from './flags.ts';
