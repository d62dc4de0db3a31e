/**
 * Which columns of a file the plain reference reads, by the account the site gave of the file: a column is taken under
 * the name it has in the benchmark's own layout.
 */

/** Names in the benchmark's layout by field; '' where a field changes no answer that is compared. */
const namesOfFields = new Map(
  Object.entries({
    ticket: 'ticket',
    time: 'time_utc',
    station: 'station',
    tail: 'tail',
    vehicle: 'vehicle',
    volume: 'volume_l',
    meterStart: 'meter_start_l',
    meterStop: 'meter_stop_l',
    densityObserved: 'density_observed_kg_m3',
    densityTemperature: 'density_temperature_c',
    fuelTemperature: 'fuel_temperature_c',
    densityCertificate15: 'density_certificate15_kg_m3',
    arrivalFuel: 'arrival_fuel_kg',
    departureFuel: 'departure_fuel_kg',
    groundBurn: 'ground_burn_kg',
    defuelled: 'defuelled_kg',
    waterTest: 'water_test',
    conductivity: 'conductivity_ps_m',
    type: '',
    flight: '',
    supplier: '',
    intoPlaneAgent: '',
    meter: '',
    grade: '',
    batch: '',
    ordered: '',
    visual: '',
    remarks: ''
  })
);

const canonicalUnits = new Set([
  'celsius',
  'kilogram',
  'kilogramPerCubicMetre',
  'kilopascal',
  'litre',
  'milligramPerLitre',
  'minute',
  'partPerMillion',
  'picosiemensPerMetre'
]);

/**
 * @typedef {{header: string, field: string | null, part: string | null, unit: string | null}} Column
 * @typedef {{encoding: {name: string}, delimiter: string, decimalMark: string | null, groupMark: string | null,
 *   headerLine: number | null, columns: Column[]}} Account
 * @typedef {{delimiter: string, names: ReadonlyMap<string, string>}} KnownLayout
 */

/**
 * The layout of a file as the reference can read it, or why it cannot, in words.
 * @param {Account} account @returns {KnownLayout | string}
 */
export function knownLayout({ encoding, delimiter, decimalMark, groupMark, headerLine, columns }) {
  if (encoding.name !== 'utf-8') return `the encoding ${encoding.name}`;
  if (headerLine !== 1) return 'a header that is not the first line';
  if (decimalMark === ',' || groupMark !== null) return 'numbers with a comma or group marks';
  const names = new Map();
  for (const { header, field, part, unit } of columns) {
    if (field === null) continue;
    const name = namesOfFields.get(field);
    if (name === undefined) return `the field ${field}`;
    if (part !== null && part !== 'whole') return `${field} in two columns`;
    if (name !== '' && unit !== null && !canonicalUnits.has(unit)) return `${field} in ${unit}`;
    if (names.has(header)) return `two columns under ${header}`;
    if (name !== '') names.set(header, name);
  }
  return { delimiter, names };
}
