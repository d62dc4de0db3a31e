import { describe, expect, it } from 'vitest';
import {
  demoEvents,
  demoEventsCsv,
  demoLimitSet,
  demoStations,
  demoTypes,
  demoVehicles
} from '#lib/demo/index.ts';
import { createWorld } from '#lib/demo/world.ts';
import {
  type LimitSet,
  type StationEntry,
  type TypeEntry,
  type VehicleEntry
} from '#lib/data/settings/index.ts';

const count = <T>(list: readonly T[], key: (entry: T) => string): Record<string, number> =>
  list.reduce<Record<string, number>>(
    (sum, entry) => ({ ...sum, [key(entry)]: (sum[key(entry)] ?? 0) + 1 }),
    {}
  );

describe('the registers of the invented airline', () => {
  it('fit the shapes of the settings', () => {
    const types: readonly TypeEntry[] = demoTypes;
    const stations: readonly StationEntry[] = demoStations;
    const vehicles: readonly VehicleEntry[] = demoVehicles;
    const limits: LimitSet = demoLimitSet;
    expect([types.length, stations.length, vehicles.length]).toEqual([3, 12, 72]);
    expect([limits.base, limits.width]).toEqual([
      'meteredMass',
      { percent: 3, floorKg: 0, floorGaugeSteps: 0 }
    ]);
  });

  it.each([
    ['AV150', 18_600, 20, 14],
    ['AV310', 78_000, 100, 4],
    ['TN070', 5_000, 10, 6]
  ])('give %s %i kg of tanks, a gauge step of %i kg and %i tails', (code, capacityKg, step, tails) => {
    const type = demoTypes.find((entry) => entry.code === code);
    expect(type?.capacityKg).toBe(capacityKg);
    expect(type?.tanks.reduce((sum, tank) => sum + tank.usableKg, 0)).toBe(capacityKg);
    expect(type?.gaugeStepKg).toBe(step);
    const own = createWorld({}).tails.filter((tail) => tail.performance.type.code === code);
    expect(own).toHaveLength(tails);
  });

  it('name nothing as the real world does', () => {
    for (const { code } of demoStations) expect(code).toMatch(/^J[A-Z]{3}$/);
    for (const { code } of demoTypes) expect(code).toMatch(/^[A-Z0-9]{5}$/);
    for (const { registration } of createWorld({}).tails) expect(registration).toMatch(/^Q7-[A-Z]{3}$/);
  });

  it('give each code once, in a world of any density', () => {
    const world = createWorld({ uplifts: 3_000_000 });
    expect(new Set(world.tails.map((tail) => tail.registration)).size).toBe(24 * 50);
    expect(new Set(world.vehicles.map(({ entry }) => entry.code)).size).toBe(world.vehicles.length);
    expect(world.vehicles).toHaveLength(72 * 50);
  });

  it('tell of nine meter exchanges, six gauge jobs, two supplier changes and one opening', () => {
    expect(count(demoEvents, (event) => event.kind)).toEqual({
      meterExchange: 9,
      gaugeWork: 6,
      supplierChange: 2,
      stationOpening: 1
    });
    const codes = new Set([
      ...demoVehicles.map((vehicle) => vehicle.code),
      ...createWorld({}).tails.map((tail) => tail.registration),
      ...demoStations.map((station) => station.code)
    ]);
    expect(demoEvents.filter((event) => !codes.has(event.code))).toEqual([]);
    expect(demoEventsCsv().split('\r\n')).toHaveLength(18 + 2);
  });

  it('write each zone as the offset it stands for', () => {
    for (const { zone, utcOffsetMinutes } of demoStations) {
      const [, hours, minutes] = /^\+(\d\d):(\d\d)$/.exec(zone) ?? [];
      expect(60 * Number(hours) + Number(minutes)).toBe(utcOffsetMinutes);
    }
  });

  it('refuse a world that is too small or too large to tell anything', () => {
    expect(() => createWorld({ uplifts: 100 })).toThrow('need 2000 to 10000000');
    expect(() => createWorld({ uplifts: NaN })).toThrow('uplifts: NaN');
  });
});
