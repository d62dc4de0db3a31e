/** A tank of a type, by the name its columns use. */
export interface TankEntry {
  readonly name: string;
  readonly usableKg: number;
  /** Which wing it counts to for the left-right imbalance; null: neither. */
  readonly side: 'left' | 'right' | null;
}

/** An aircraft type as the operator knows it. */
export interface TypeEntry {
  readonly code: string;
  readonly name: string;
  readonly gaugeStepKg: number;
  readonly tanks: readonly TankEntry[];
  /** Ground burn per minute for records that give minutes but no burn; null: not estimated. */
  readonly groundBurnKgPerMinute: number | null;
}

/** A refueller or hydrant dispenser. */
export interface VehicleEntry {
  readonly code: string;
  readonly station: string;
  /** Maximum permissible error of the measuring system, per cent (accuracy class); null: the default. */
  readonly accuracyClassPercent: number | null;
  /** Last proving of its meter, ms UTC. */
  readonly provedMs: number | null;
  /** Digits of the totaliser, for roll-over; null: unknown. */
  readonly meterDigits: number | null;
}

/** A station. */
export interface StationEntry {
  readonly code: string;
  readonly name: string;
  /** An IANA zone (`Pacific/Auckland`) or a fixed offset (`+05:30`) for bare local times; null: ask. */
  readonly zone: string | null;
}

/** Usable capacity of a type, kg: the sum of its tanks, NaN where none are listed. */
export function capacityKg(type: TypeEntry): number {
  return type.tanks.length === 0 ? NaN : type.tanks.reduce((sum, tank) => sum + tank.usableKg, 0);
}
