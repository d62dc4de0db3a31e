/**
 * The answers that the site must give on a benchmark file, by plain means: papaparse, one object a record, one array a
 * group, bisection for the density at 15 °C. Nothing is shared with the site's code.
 */
import { createReadStream } from 'node:fs';
import Papa from 'papaparse';

/**
 * @typedef {Record<string, string>} Row
 * @typedef {{time: number, day: number, station: string, tail: string, ticket: string, vehicle: string, volume: number,
 *   start: number, stop: number, observed: number, sampleC: number, meterC: number, certificate: number,
 *   arrival: number, departure: number, burn: number, defuelled: number, water: string, text: string}} Ticket
 * @typedef {{refuellings: number, judged: number, outside: number, n: number, quantiles: number[], passed: number,
 *   failed: number}} Group
 * @typedef {{records: number, used: number, setAside: number, refused: number, groups: Record<string, Group>,
 *   strange: string | null}} Reference `strange`: a cell that is written in a way the reference does not read
 * @typedef {import('./known-layout.js').KnownLayout} KnownLayout
 */

const dayMs = 86_400_000;
const windowMs = 90 * 60_000;
const floorKg = 100;
const limitShare = 0.03;
const shares = [0.05, 0.25, 0.5, 0.75, 0.95];

/** Expansion at 15 °C, API Standard 2540, Table 54B (products). @param {number} density15 */
function expansion(density15) {
  const square = density15 * density15;
  if (density15 < 770.5) return 346.4228 / square + 0.4388 / density15;
  if (density15 < 787.5) return 2680.3206 / square - 0.00336312;
  if (density15 < 839) return 594.5418 / square;
  return 186.9696 / square + 0.4862 / density15;
}

/** @param {number} density15 @param {number} celsius */
function densityAt(density15, celsius) {
  const step = expansion(density15) * (celsius - 15);
  return density15 * Math.exp(-step * (1 + 0.8 * step));
}

/** @param {number} observed @param {number} celsius */
function density15Of(observed, celsius) {
  let low = 653;
  let high = 1075;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (densityAt(middle, celsius) < observed) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** @param {string | undefined} text */
const numberOf = (text) => (text === undefined || text.trim() === '' ? NaN : Number(text));

const utcTime = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?Z$/;
const waterWords = new Set(['', 'passed', 'failed', 'not done', 'not required']);

/** The first cell of a record that the reference cannot read as the site may, null where there is none. @param {Row} row */
function strangeCell(row) {
  const { time_utc: time = '', water_test: water = '' } = row;
  if (time !== '' && !utcTime.test(time)) return `the time ${time}`;
  if (!waterWords.has(water)) return `the water test ${water}`;
  const number = Object.entries(row).find(
    ([name, text]) => /_(l|kg|kg_m3|c|ps_m)$/.test(name) && text.trim() !== '' && Number.isNaN(Number(text))
  );
  return number === undefined ? null : `the number ${number[1]}`;
}

/**
 * A record as numbers; null where the site must refuse it.
 * @param {Row} row
 * @returns {Ticket | null}
 */
function ticketOf(row) {
  const time = Date.parse(row['time_utc'] ?? '');
  const ticket = {
    time,
    day: Math.floor(time / dayMs),
    station: row['station'] ?? '',
    tail: row['tail'] ?? '',
    ticket: row['ticket'] ?? '',
    vehicle: row['vehicle'] ?? '',
    volume: numberOf(row['volume_l']),
    start: numberOf(row['meter_start_l']),
    stop: numberOf(row['meter_stop_l']),
    observed: numberOf(row['density_observed_kg_m3']),
    sampleC: numberOf(row['density_temperature_c']),
    meterC: numberOf(row['fuel_temperature_c']),
    certificate: numberOf(row['density_certificate15_kg_m3']),
    arrival: numberOf(row['arrival_fuel_kg']),
    departure: numberOf(row['departure_fuel_kg']),
    burn: numberOf(row['ground_burn_kg']),
    defuelled: numberOf(row['defuelled_kg']),
    water: row['water_test'] ?? '',
    text: JSON.stringify(Object.values(row))
  };
  const hasPlace = !Number.isNaN(time) && ticket.station !== '' && ticket.tail !== '';
  const hasQuantity =
    [ticket.volume, ticket.defuelled].some(Number.isFinite) || Number.isFinite(ticket.stop - ticket.start);
  const amounts = [ticket.volume, ticket.start, ticket.stop, ticket.arrival, ticket.departure];
  const isRefused =
    [...amounts, ticket.burn, ticket.defuelled, numberOf(row['conductivity_ps_m'])].some(
      (each) => each < 0
    ) ||
    [ticket.observed, ticket.certificate].some((each) => each < 600 || each > 1100) ||
    [ticket.sampleC, ticket.meterC].some((each) => each < -80 || each > 100);
  return hasPlace && hasQuantity && !isRefused ? ticket : null;
}

/**
 * Density at 15 °C and metered mass of a ticket, NaN where there is none.
 * @param {Ticket} ticket
 */
function massOf(ticket) {
  const { observed, certificate, meterC } = ticket;
  const sampleC = Number.isFinite(ticket.sampleC) ? ticket.sampleC : meterC;
  const volume = Number.isFinite(ticket.volume) ? ticket.volume : ticket.stop - ticket.start;
  const covered = (/** @type {number} */ celsius) => (celsius >= -40 && celsius <= 90 ? celsius : NaN);
  if (Number.isFinite(observed) && Number.isFinite(sampleC)) {
    const density15 = Number.isFinite(covered(sampleC)) ? density15Of(observed, sampleC) : NaN;
    const isShared = !Number.isFinite(ticket.sampleC) || !Number.isFinite(meterC) || meterC === sampleC;
    const atMeter = isShared ? observed : densityAt(density15, covered(meterC));
    return Number.isFinite(density15 + atMeter)
      ? { density15, mass: volume * atMeter * 1e-3, isMeasured: true }
      : { density15: NaN, mass: NaN, isMeasured: false };
  }
  if (Number.isFinite(observed)) return { density15: NaN, mass: volume * observed * 1e-3, isMeasured: false };
  if (!Number.isFinite(certificate)) return { density15: NaN, mass: NaN, isMeasured: false };
  return Number.isFinite(meterC)
    ? {
        density15: certificate,
        mass: volume * densityAt(certificate, covered(meterC)) * 1e-3,
        isMeasured: true
      }
    : { density15: certificate, mass: volume * certificate * 1e-3, isMeasured: false };
}

/**
 * Tickets that are not there twice: the same ticket number of a station on a day, or the same volume into one tail by
 * one vehicle at one instant.
 * @param {Ticket[]} tickets
 */
function withoutDoubles(tickets) {
  const seen = new Set();
  return tickets.filter((ticket) => {
    const number = ticket.ticket === '' ? null : `n ${ticket.station} ${ticket.day} ${ticket.ticket}`;
    if (number !== null && seen.has(number)) return false;
    if (number !== null) seen.add(number);
    const uplift = `u ${ticket.station} ${ticket.tail} ${ticket.vehicle} ${ticket.time} ${ticket.volume}`;
    // Not-a-number is no volume that two records could share.
    if (Number.isFinite(ticket.volume) && seen.has(uplift)) return false;
    seen.add(uplift);
    return true;
  });
}

/** @param {number} a @param {number} b */
const mayBeSame = (a, b) => a === b || Number.isNaN(a) || Number.isNaN(b);

/**
 * Tickets of one refuelling in one array: same tail and station within 90 minutes of the first, gauges that agree.
 * @param {Ticket[]} tickets
 */
function refuellingsOf(tickets) {
  /** @type {Map<string, Ticket[]>} */
  const byTail = new Map();
  for (const ticket of tickets) {
    const ofTail = byTail.get(ticket.tail);
    if (ofTail === undefined) byTail.set(ticket.tail, [ticket]);
    else ofTail.push(ticket);
  }
  const found = [];
  for (const ofTail of byTail.values()) {
    ofTail.sort((a, b) => a.time - b.time);
    /** @type {Ticket[]} */
    let group = [];
    let arrival = NaN;
    let departure = NaN;
    for (const ticket of ofTail) {
      const first = group[0];
      const isSameStop =
        first !== undefined && first.station === ticket.station && ticket.time - first.time <= windowMs;
      const isSamePair = ticket.arrival === arrival && ticket.departure === departure;
      const isNext = ticket.arrival === departure;
      const agrees = mayBeSame(ticket.arrival, arrival) && mayBeSame(ticket.departure, departure);
      if (isSameStop && (isSamePair || (!isNext && agrees))) {
        group.push(ticket);
        if (Number.isNaN(arrival)) arrival = ticket.arrival;
        if (Number.isNaN(departure)) departure = ticket.departure;
      } else {
        group = [ticket];
        found.push(group);
        ({ arrival, departure } = ticket);
      }
    }
  }
  return found;
}

/** Type 7 of a sorted array. @param {number[]} sorted @param {number} share */
function quantile(sorted, share) {
  const place = (sorted.length - 1) * share;
  const below = Math.floor(place);
  const low = sorted[below] ?? NaN;
  return low + (place - below) * ((sorted[below + 1] ?? low) - low);
}

/**
 * @param {string[]} paths
 * @param {KnownLayout[]} layouts how each of them is read
 * @returns {Promise<Reference>}
 */
export async function referenceOf(paths, layouts) {
  /** @type {Ticket[]} */
  const read = [];
  let records = paths.length;
  let refused = 0;
  /** @type {string | null} */
  let strange = null;
  for (const [i, path] of paths.entries()) {
    const { delimiter, names } = layouts[i] ?? { delimiter: ',', names: new Map() };
    await new Promise((resolve, reject) => {
      Papa.parse(createReadStream(path, { encoding: 'utf8' }), {
        header: true,
        delimiter,
        transformHeader: (header) => names.get(header.trim()) ?? `-${header}`,
        skipEmptyLines: true,
        step: ({ data }) => {
          records++;
          strange ??= strangeCell(/** @type {Row} */ (data));
          const ticket = ticketOf(/** @type {Row} */ (data));
          if (ticket === null) refused++;
          else read.push(ticket);
        },
        complete: () => resolve(null),
        error: reject
      });
    });
  }
  const tickets = withoutDoubles(read);
  /** @type {Record<string, Group & {densities: number[]}>} */
  const groups = {};
  const groupOf = (/** @type {string} */ name) =>
    (groups[name] ??= {
      refuellings: 0,
      judged: 0,
      outside: 0,
      n: 0,
      quantiles: [],
      passed: 0,
      failed: 0,
      densities: []
    });
  for (const members of refuellingsOf(tickets)) {
    const leader = members[0];
    if (leader === undefined) continue;
    const group = groupOf(leader.station);
    const first = (/** @type {'arrival' | 'departure' | 'burn' | 'defuelled'} */ key) =>
      members.map((ticket) => ticket[key]).find(Number.isFinite) ?? NaN;
    const sums = members.map(massOf);
    for (const { density15 } of sums) if (Number.isFinite(density15)) group.densities.push(density15);
    const isDefuel =
      first('defuelled') > 0 &&
      members.every(({ volume, start, stop }) => !Number.isFinite(volume) && !Number.isFinite(stop - start));
    const metered = isDefuel ? 0 : sums.reduce((sum, { mass }) => sum + mass, 0);
    const zeroed = (/** @type {number} */ value) => (Number.isFinite(value) ? value : 0);
    const gauge = first('departure') - first('arrival') + zeroed(first('burn')) + zeroed(first('defuelled'));
    const difference = gauge - metered;
    group.refuellings++;
    if (!Number.isFinite(difference) || !(isDefuel || sums.every(({ isMeasured }) => isMeasured))) continue;
    group.judged++;
    if (Math.abs(difference) > Math.max(floorKg, limitShare * metered)) group.outside++;
  }
  for (const { station, water } of tickets) {
    if (water === 'passed') groupOf(station).passed++;
    if (water === 'failed') groupOf(station).failed++;
  }
  for (const group of Object.values(groups)) {
    const sorted = group.densities.sort((a, b) => a - b);
    group.n = sorted.length;
    group.quantiles = shares.map((share) => quantile(sorted, share));
    group.densities = [];
  }
  return { records, used: tickets.length, setAside: read.length - tickets.length, refused, groups, strange };
}
