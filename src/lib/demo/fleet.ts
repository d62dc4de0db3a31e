/** A tank, in the shape of the type register. */
export interface DemoTank {
  readonly name: string;
  readonly usableKg: number;
  readonly side: 'left' | 'right' | null;
}

/** An aircraft type, in the shape of the type register. */
export interface DemoType {
  readonly code: string;
  readonly name: string;
  readonly gaugeStepKg: number;
  readonly tanks: readonly DemoTank[];
  readonly capacityKg: number;
  readonly groundBurnKgPerMinute: null;
}

/** How a type flies, burns and reads: what the simulation needs and no register holds. */
export interface Performance {
  readonly type: DemoType;
  /** Registrations present in the world as told, without their common start. */
  readonly tails: readonly string[];
  /** Standard deviation of one gauge reading, kg. */
  readonly gaugeNoiseKg: number;
  /** Burn of a flight: a fixed part and a part per nautical mile, kg. */
  readonly fixedBurnKg: number;
  readonly burnKgPerNm: number;
  readonly speedKt: number;
  /** Fuel meant to be left on arrival: a fixed part and the median of what crews add, kg. */
  readonly reserveKg: number;
  readonly extraKg: number;
  /** No fuelling is asked for below this, kg. */
  readonly smallestUpliftKg: number;
  /** Orders are given in steps of this, kg. */
  readonly orderStepKg: number;
  /** Usual burn on the ground between the two readings with ground power, and where there is none, kg. */
  readonly groundBurnKg: number;
  readonly unpoweredBurnKg: number;
  /** Steps in which ground burn is written, kg. */
  readonly burnStepKg: number;
  /** Minutes on the ground from arrival to departure by day, least and most. */
  readonly turnMinutes: readonly [number, number];
  /** Chance that an arrival in the late evening or at night stays until morning. */
  readonly nightStop: number;
  /** Share of departures that carry fuel for more than the next flight. */
  readonly tankering: number;
  /** Litres a minute into the aircraft. */
  readonly flowLMin: number;
  /** Share of uplifts that two vehicles share. */
  readonly split: number;
}

function typeOf(code: string, name: string, gaugeStepKg: number, tanks: readonly DemoTank[]): DemoType {
  const capacityKg = tanks.reduce((sum, tank) => sum + tank.usableKg, 0);
  return { code, name, gaugeStepKg, tanks, capacityKg, groundBurnKgPerMinute: null };
}

const tank = (name: string, usableKg: number, side: DemoTank['side'] = null): DemoTank => ({
  name,
  usableKg,
  side
});

const averil150 = typeOf('AV150', 'Averil 150', 20, [
  tank('left', 6250, 'left'),
  tank('centre', 6100),
  tank('right', 6250, 'right')
]);
const averil310 = typeOf('AV310', 'Averil 310', 100, [
  tank('left outer', 4500, 'left'),
  tank('left inner', 24000, 'left'),
  tank('centre', 18000),
  tank('right inner', 24000, 'right'),
  tank('right outer', 4500, 'right'),
  tank('trim', 3000)
]);
const tern70 = typeOf('TN070', 'Tern 70', 10, [tank('left', 2500, 'left'), tank('right', 2500, 'right')]);

/** The type register of the demo. Five-character codes, which no real type has; names are invented. */
export const demoTypes: readonly DemoType[] = [averil150, averil310, tern70];

const lettered = (start: string, count: number): string[] =>
  Array.from({ length: count }, (_, index) => start + String.fromCharCode(65 + index));

/** The three types as they fly, in the order of the register. */
export const performances: readonly Performance[] = [
  {
    type: averil150,
    tails: lettered('KE', 14),
    gaugeNoiseKg: 45,
    fixedBurnKg: 800,
    burnKgPerNm: 4.95,
    speedKt: 455,
    reserveKg: 2300,
    extraKg: 420,
    smallestUpliftKg: 2150,
    orderStepKg: 100,
    groundBurnKg: 20,
    unpoweredBurnKg: 120,
    burnStepKg: 10,
    turnMinutes: [40, 70],
    nightStop: 0.5,
    tankering: 0.08,
    flowLMin: 900,
    split: 0.003
  },
  {
    type: averil310,
    tails: lettered('LO', 4),
    gaugeNoiseKg: 160,
    fixedBurnKg: 2500,
    burnKgPerNm: 17.3,
    speedKt: 475,
    reserveKg: 6500,
    extraKg: 1800,
    smallestUpliftKg: 18000,
    orderStepKg: 100,
    groundBurnKg: 60,
    unpoweredBurnKg: 180,
    burnStepKg: 10,
    turnMinutes: [240, 780],
    nightStop: 0.5,
    tankering: 0.3,
    flowLMin: 1800,
    split: 0.04
  },
  {
    type: tern70,
    tails: lettered('TU', 6),
    gaugeNoiseKg: 11,
    fixedBurnKg: 40,
    burnKgPerNm: 2.1,
    speedKt: 285,
    reserveKg: 620,
    extraKg: 90,
    smallestUpliftKg: 500,
    orderStepKg: 50,
    groundBurnKg: 5,
    unpoweredBurnKg: 60,
    burnStepKg: 5,
    turnMinutes: [40, 105],
    nightStop: 0.95,
    tankering: 0.08,
    flowLMin: 500,
    split: 0
  }
];

/** Registrations start with Q7: no state is given a nationality mark that begins with Q. */
export const registrationStart = 'Q7-';
