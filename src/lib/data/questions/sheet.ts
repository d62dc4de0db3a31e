import {
  createRefuellingInput,
  createRefuellingResult,
  createTicketInput,
  createTicketResult,
  addTicket,
  reconcileRefuelling,
  reconcileTicket,
  type RefuellingInput,
  type RefuellingResult,
  type TicketInput,
  type TicketResult
} from '#lib/core/reconciliation/index.ts';
import {
  addressFrom,
  addressText,
  computedReader,
  InputReader,
  sourceKeys,
  sourceReader,
  type AsideReason,
  type RecordValue
} from '#lib/data/ledger/index.ts';
import { computedFields, type ColumnKey, type ComputedName } from '#lib/data/record/index.ts';
import { causesOf, type RecordCauses } from './causes.ts';
import type { QuestionContext } from './context.ts';

/** One ticket of the refuelling on the sheet, every intermediate with it. */
export interface SheetTicket {
  readonly address: string;
  readonly input: TicketInput;
  readonly result: TicketResult;
}

/** How the discrepancy answers to one input: by how much it moves for a small step of it. */
export interface Sensitivity {
  readonly key: ColumnKey;
  /** The step, in the field's unit. */
  readonly step: number;
  /** Change of the discrepancy for the step, kg. */
  readonly changeKg: number;
}

/** The worked sheet of one uplift. */
export interface SheetAnswer {
  readonly address: string;
  readonly file: { readonly id: string; readonly name: string; readonly sha256: string };
  readonly line: number;
  readonly lines: number;
  readonly fields: readonly { readonly key: ColumnKey; readonly value: RecordValue }[];
  readonly computed: { readonly [N in ComputedName]: RecordValue };
  readonly tickets: readonly SheetTicket[];
  readonly input: RefuellingInput;
  readonly result: RefuellingResult;
  readonly sensitivities: readonly Sensitivity[];
  readonly causes: RecordCauses;
  /** Why the record is set aside, null where it is used. */
  readonly aside: AsideReason | null;
}

/** Steps that a reader can picture: one litre in a thousand would hide in the noise, a kilogram would not. */
const steps: readonly { key: ColumnKey; step: number }[] = [
  { key: 'volume', step: 10 },
  { key: 'netVolume', step: 10 },
  { key: 'densityObserved', step: 1 },
  { key: 'densityTicket15', step: 1 },
  { key: 'densityTemperature', step: 1 },
  { key: 'fuelTemperature', step: 1 },
  { key: 'arrivalFuel', step: 10 },
  { key: 'departureFuel', step: 10 },
  { key: 'groundBurn', step: 10 }
];

const ticketMembers: { readonly [K in ColumnKey]?: keyof TicketInput } = {
  volume: 'grossVolumeL',
  netVolume: 'netVolumeL',
  densityObserved: 'observedDensityKgM3',
  densityTicket15: 'ticketDensity15KgM3',
  densityTemperature: 'sampleTemperatureC',
  fuelTemperature: 'meterTemperatureC'
};

function sensitivities(
  context: QuestionContext,
  ticket: SheetTicket,
  result: RefuellingResult
): Sensitivity[] {
  const method = context.settings.method.arithmetic;
  const moved = createTicketResult();
  const found: Sensitivity[] = [];
  for (const { key, step } of steps) {
    const member = ticketMembers[key];
    if (member === undefined) {
      const changeKg = key === 'arrivalFuel' ? -step : step;
      if (Number.isFinite(result.discrepancyKg)) found.push({ key, step, changeKg });
      continue;
    }
    if (!Number.isFinite(ticket.input[member])) continue;
    reconcileTicket({ ...ticket.input, [member]: ticket.input[member] + step }, method, moved);
    const changeKg = ticket.result.meteredMassKg - moved.meteredMassKg;
    if (Number.isFinite(changeKg)) found.push({ key, step, changeKg });
  }
  return found;
}

/** The worked sheet at an address; null where no file in hand has it. */
export function sheet(context: QuestionContext, asked: { readonly address: string }): SheetAnswer | null {
  const { ledger, settings } = context;
  const address = addressFrom(asked.address);
  const row = address === null ? -1 : ledger.source.rowAt(address);
  if (address === null || row < 0) return null;
  const leader = ledger.computed.leader[row] ?? row;
  const reader = new InputReader(ledger.source, settings);
  const input = createRefuellingInput();
  const result = createRefuellingResult();
  reader.startRefuelling(leader, input);
  const members = ledger.ticketsOf(leader);
  const tickets = members.map((member): SheetTicket => {
    const ticket = { input: createTicketInput(), result: createTicketResult() };
    reader.readTicket(member, ticket.input);
    reconcileTicket(ticket.input, settings.method.arithmetic, ticket.result);
    addTicket(input, ticket.result);
    reader.mergeGauges(member, input);
    return { address: addressText(ledger.source.addressOf(member)), ...ticket };
  });
  reconcileRefuelling(input, settings.method.arithmetic, result);
  const own = tickets.find((ticket) => ticket.address === asked.address);
  const { id, name, sha256 } = ledger.source.fileOf(row);
  return {
    address: asked.address,
    file: { id, name, sha256 },
    line: address.line,
    lines: ledger.source.linesOf(row),
    fields: sourceKeys(ledger).map((key) => ({ key, value: sourceReader(ledger, key)(row) })),
    computed: Object.fromEntries(
      computedFields.map((field) => [field.name, computedReader(ledger, field.name, settings)(row)])
    ) as SheetAnswer['computed'],
    tickets,
    input,
    result,
    sensitivities: own === undefined ? [] : sensitivities(context, own, result),
    causes: causesOf(context, leader, members),
    aside: ledger.asideReason(row)
  };
}
