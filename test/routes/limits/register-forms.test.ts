import { describe, expect, it } from 'vitest';
import type { StationEntry, TypeEntry, VehicleEntry } from '#lib/data/settings/index.ts';
import {
  eventFrom,
  eventValues,
  stationFrom,
  stationValues,
  typeFrom,
  typeValues,
  vehicleFrom,
  vehicleValues
} from '../../../src/routes/limits/register-forms.ts';

const type: TypeEntry = {
  code: 'AV150',
  name: 'Averil 150',
  gaugeStepKg: 20,
  tanks: [
    { name: 'left', usableKg: 6250, side: 'left' },
    { name: 'centre', usableKg: 6100, side: null }
  ],
  groundBurnKgPerMinute: 2.5
};
const vehicle: VehicleEntry = {
  code: 'JDUM-R214',
  station: 'JDUM',
  accuracyClassPercent: 0.5,
  provedMs: Date.parse('2031-02-03'),
  meterDigits: 7
};
const station: StationEntry = { code: 'JKES', name: 'Keswin', zone: '+05:30' };

describe('the forms of the registers', () => {
  it('give back what they were filled with', () => {
    expect(typeFrom(typeValues(type))).toEqual({ entry: type });
    expect(vehicleFrom(vehicleValues(vehicle))).toEqual({ entry: vehicle });
    expect(stationFrom(stationValues(station))).toEqual({ entry: station });
    const event = {
      timeMs: Date.parse('2031-02-03'),
      kind: 'gaugeWork',
      subject: 'tail',
      code: 'Q7-KED',
      note: 'probe'
    } as const;
    expect(eventFrom(eventValues(event))).toEqual({ entry: event });
  });

  it('read a decimal comma, and leave blank what is blank', () => {
    expect(typeFrom({ ...typeValues(type), burn: '2,5' })).toMatchObject({
      entry: { groundBurnKgPerMinute: 2.5 }
    });
    expect(vehicleFrom({ ...vehicleValues(vehicle), class: '', digits: '' })).toMatchObject({
      entry: { accuracyClassPercent: null, meterDigits: null }
    });
  });

  it.each([
    ['a type without a code', typeFrom({ ...typeValues(type), code: ' ' }), 'needs its code'],
    ['a gauge step that is none', typeFrom({ ...typeValues(type), step: '20 kg' }), 'gauge step'],
    [
      'a tank without a mass',
      typeFrom({ ...typeValues(type), tanks: 'left, 6250, left\ncentre' }),
      'Tank line 2'
    ],
    ['digits beyond a register', vehicleFrom({ ...vehicleValues(vehicle), digits: '40' }), 'digits'],
    ['a zone that is none', stationFrom({ ...stationValues(station), zone: 'Mars/Crater' }), 'zone'],
    ['an event without a day', eventFrom({ ...eventValues(undefined), code: 'x' }), 'day']
  ])('say in words what is wrong with %s', (_what, formed, words) => {
    expect('problem' in formed ? formed.problem : '').toContain(words);
  });
});
