/**
 * A file of about a thousand uplifts with a computation of its own: nothing of the program under test is used, so that
 * agreement means something.
 */

/** Park-Miller numbers in (0, 1), so that every run has the same file. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (16807 * state) % 2147483647;
    return state / 2147483647;
  };
}

/** Thermal expansion per °C by API Std 2540 table 54B, jet and transition bands. */
function expansion(density15: number): number {
  return density15 < 787.5 ? -0.00336312 + 2680.3206 / density15 ** 2 : 594.5418 / density15 ** 2;
}

function factor(density15: number, temperatureC: number): number {
  const step = expansion(density15) * (temperatureC - 15);
  return Math.exp(-step * (1 + 0.8 * step));
}

/** Density at 15 °C by halving an interval, the slow and sure way. */
function density15(observed: number, temperatureC: number): number {
  let low = 0.85 * observed;
  let high = 1.15 * observed;
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (middle * factor(middle, temperatureC) < observed) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export interface ExpectedUplift {
  readonly ticket: string;
  readonly station: string;
  readonly tail: string;
  readonly meteredMassKg: number;
  readonly discrepancyKg: number;
  readonly isOutside: boolean;
}

export interface UpliftFile {
  readonly name: string;
  readonly text: string;
  readonly good: readonly ExpectedUplift[];
  readonly refused: number;
}

const stations = ['JARV', 'JBEL', 'JCOD', 'JDUM'];

function iso(minutes: number): string {
  return new Date(Date.UTC(2031, 0, 1) + minutes * 60_000).toISOString().replace('.000Z', 'Z');
}

/** Writes the file. Some records are bad on purpose: a number, a missing tail, a date that is none. */
export function upliftFile(count = 1_000): UpliftFile {
  const random = numbers(20310701);
  const header =
    'Ticket;End of fuelling (UTC);Station;Tail;Volume (L);Observed density (kg/m3);Sample temperature (C);Fuel temperature (C);Arrival fuel (kg);Departure fuel (kg);Ground burn (kg);Remarks';
  const lines = [header];
  const good: ExpectedUplift[] = [];
  let refused = 0;
  for (let i = 0; i < count; i++) {
    const station = stations[Math.floor(random() * stations.length)] ?? 'JARV';
    const tail = `Q7-KE${String.fromCharCode(65 + (i % 12))}`;
    const ticket = String(i).padStart(6, '0');
    const volume = Math.round(2_000 + random() * 18_000);
    const true15 = 780 + random() * 45;
    const temperatureC = Math.round((random() * 35 - 2) * 10) / 10;
    const observed = Math.round(true15 * factor(true15, temperatureC) * 10) / 10;
    const mass = (volume * observed) / 1_000;
    const arrival = 1_000 + Math.round(random() * 40) * 20;
    const departure = Math.round((arrival + mass * (1 + (random() - 0.5) * 0.1)) / 20) * 20;
    const burn = random() < 0.3 ? '' : String(Math.round(random() * 60));
    const meterC = Math.round((temperatureC + (random() - 0.5) * 4) * 10) / 10;
    const cells = [
      ticket,
      iso(i * 97),
      station,
      tail,
      String(volume),
      String(observed),
      String(temperatureC),
      String(meterC),
      String(arrival),
      String(departure),
      burn,
      i % 50 === 0 ? '"two lines\nand a ; in one cell"' : i % 33 === 0 ? '=SUM(A1)' : ''
    ];
    const fault = i % 101 === 100 ? 'number' : i % 173 === 172 ? 'tail' : i % 211 === 210 ? 'date' : null;
    if (fault === 'number') cells[4] = '12x00';
    if (fault === 'tail') cells[3] = '';
    if (fault === 'date') cells[1] = '2031-02-31T10:00:00Z';
    lines.push(cells.join(';'));
    if (fault !== null) {
      refused++;
      continue;
    }
    const at15 = density15(observed, temperatureC);
    const meteredMassKg = (volume * at15 * factor(at15, meterC)) / 1_000;
    const discrepancyKg = departure - arrival + Number(burn) - meteredMassKg;
    const limitKg = Math.max(100, 0.03 * meteredMassKg);
    good.push({
      ticket,
      station,
      tail,
      meteredMassKg,
      discrepancyKg,
      isOutside: Math.abs(discrepancyKg) > limitKg
    });
  }
  return { name: 'uplifts-2031.csv', text: `${lines.join('\r\n')}\r\n`, good, refused };
}
