/**
 * What the arithmetic made of each record, one entry a row. Ticket values stand on their own row; values of a
 * refuelling stand on every row of it, and `leader[row] === row` names the one row that counts for it.
 */
export interface Computed {
  readonly rowCount: number;
  // Of the ticket.
  readonly meteredMassKg: Float64Array;
  readonly volumeL: Float64Array;
  readonly density15KgM3: Float64Array;
  readonly certificateDifferenceKgM3: Float64Array;
  /** Index in `densityCases`. */
  readonly densityCase: Uint8Array;
  // Of the refuelling.
  readonly leader: Int32Array;
  readonly refuellingMassKg: Float64Array;
  readonly gaugeUpliftKg: Float64Array;
  readonly discrepancyKg: Float64Array;
  readonly expectedDepartureKg: Float64Array;
  /** Expanded uncertainty of the discrepancy. */
  readonly uncertaintyKg: Float64Array;
  /** Departure fuel or metered mass less ordered, by the basis. */
  readonly orderDifferenceKg: Float64Array;
  /** Departure fuel less the sum of the tanks; left less right. */
  readonly tankSplitKg: Float64Array;
  readonly imbalanceKg: Float64Array;
  /** Recorded less recomputed. */
  readonly recordedUpliftDifferenceKg: Float64Array;
  readonly recordedDiscrepancyDifferenceKg: Float64Array;
  /** Index in `qualities`; of a refuelling the worst of its tickets and gauges. */
  readonly quality: Uint8Array;
  /** Bits of `reasons` and `marks`, tickets and refuelling together. */
  readonly reasons: Uint32Array;
  readonly marks: Uint32Array;
  /** 1 where more than one vehicle served the refuelling, so that it counts for none. */
  readonly severalVehicles: Uint8Array;
}

/** Values that only some files let be computed. */
export interface ComputedParts {
  readonly tanks: boolean;
  readonly recordedUplift: boolean;
  readonly recordedDiscrepancy: boolean;
}

/** Columns for so many rows; those of parts that no file has are one array of NaN. */
export function createComputed(rowCount: number, parts: ComputedParts): Computed {
  const numbers = () => new Float64Array(rowCount).fill(NaN);
  const nothing = numbers();
  return {
    rowCount,
    meteredMassKg: numbers(),
    volumeL: numbers(),
    density15KgM3: numbers(),
    certificateDifferenceKgM3: numbers(),
    densityCase: new Uint8Array(rowCount),
    leader: new Int32Array(rowCount),
    refuellingMassKg: numbers(),
    gaugeUpliftKg: numbers(),
    discrepancyKg: numbers(),
    expectedDepartureKg: numbers(),
    uncertaintyKg: numbers(),
    orderDifferenceKg: numbers(),
    tankSplitKg: parts.tanks ? numbers() : nothing,
    imbalanceKg: parts.tanks ? numbers() : nothing,
    recordedUpliftDifferenceKg: parts.recordedUplift ? numbers() : nothing,
    recordedDiscrepancyDifferenceKg: parts.recordedDiscrepancy ? numbers() : nothing,
    quality: new Uint8Array(rowCount),
    reasons: new Uint32Array(rowCount),
    marks: new Uint32Array(rowCount),
    severalVehicles: new Uint8Array(rowCount)
  };
}
