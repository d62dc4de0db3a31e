import { describe, expect, it } from 'vitest';
import { demoTypes } from '#lib/demo/index.ts';
import {
  grouped,
  median,
  mean,
  outsidePercent,
  type Refuelling,
  refuellingsOf,
  rowsOf,
  spread
} from './refuellings.ts';

const rows = rowsOf({ faults: false });
const refuellings = refuellingsOf(rows);
const ofType = (code: string): Refuelling[] =>
  refuellings.filter(({ row }) => demoTypes[row.typeIndex]?.code === code);

describe('the world with nothing planted', () => {
  it('has as many uplifts as the world with stories, near enough', () => {
    expect(rows.length).toBeGreaterThan(58_600);
    expect(rows.length).toBeLessThan(60_400);
  });

  // The simulation behind the demo's sizes: noise of 45, 160 and 11 kg a reading.
  it.each([
    { code: 'AV150', spreadPercent: 1.25, outside: 3.1, medianKg: 6400, aDay: 5.2, tails: 14 },
    { code: 'AV310', spreadPercent: 0.76, outside: 0.35, medianKg: 36_000, aDay: 1.8, tails: 4 },
    { code: 'TN070', spreadPercent: 1.36, outside: 4.2, medianKg: 1400, aDay: 4.5, tails: 6 }
  ])('gives $code a spread of $spreadPercent % and $outside % outside 3 %', (expected) => {
    const group = ofType(expected.code);
    expect(Math.abs(spread(group.map((each) => each.percent)) / expected.spreadPercent - 1)).toBeLessThan(
      0.07
    );
    expect(Math.abs(outsidePercent(group) - expected.outside)).toBeLessThan(0.4);
    expect(Math.abs(median(group.map((each) => each.massKg)) / expected.medianKg - 1)).toBeLessThan(0.07);
    expect(Math.abs(group.length / 548 / expected.tails / expected.aDay - 1)).toBeLessThan(0.05);
  });

  it('has no tail, vehicle, station or month that stands out in the mean', () => {
    const keys: ((each: Refuelling) => string)[] = [
      ({ row }) => row.tail,
      ({ row }) => row.vehicleCode,
      ({ row }) => row.stationCode,
      ({ day }) => `month ${Math.floor(day / 31)}`
    ];
    for (const key of keys) {
      const groups = grouped(refuellings, key);
      for (const [name, group] of groups) {
        if (group.length < 300) continue;
        expect(Math.abs(mean(group.map((each) => each.percent))), name).toBeLessThan(0.5);
      }
    }
  });

  it('keeps the gauges between nothing and the capacity, in steps of the type', () => {
    const odd = rows.filter((row) => {
      const type = demoTypes[row.typeIndex];
      const isRead = (massKg: number): boolean =>
        massKg >= 0 && massKg <= (type?.capacityKg ?? 0) && massKg % (type?.gaugeStepKg ?? 1) === 0;
      return !isRead(row.arrivalFuelKg) || !isRead(row.departureFuelKg);
    });
    expect(odd).toEqual([]);
  });

  it('carries fuel from one station to the next: an arrival never holds more than the departure before', () => {
    const risen = refuellings.filter(({ row }) => row.arrivalFuelKg >= row.previousDepartureKg);
    expect(risen).toEqual([]);
    expect(refuellings.filter(({ row }) => row.previousDepartureKg > 0).length).toBeGreaterThan(58_000);
  });

  it('keeps densities at 15 C in the range of jet fuel and within 1.5 kg/m3 of the certificate', () => {
    const far = refuellings.filter(
      ({ row, density15KgM3 }) => !(Math.abs(density15KgM3 - row.densityCertificate15KgM3) < 1.8)
    );
    expect(far.length / refuellings.length).toBeLessThan(0.001);
    expect(refuellings.filter((each) => each.density15KgM3 < 775 || each.density15KgM3 > 840)).toEqual([]);
  });

  it('counts every volume on the totaliser of its vehicle, one after the other', () => {
    const last = new Map<string, number>();
    const odd = rows.filter((row) => {
      if (!(row.volumeL > 0)) return false;
      const isCounted = row.meterStopL - row.meterStartL === row.volumeL;
      const follows = row.meterStartL === (last.get(row.meter) ?? row.meterStartL);
      last.set(row.meter, row.meterStopL);
      return !isCounted || !follows;
    });
    expect(odd).toEqual([]);
    expect(last.size).toBe(72 + 9);
  });

  it('plants nothing', () => {
    expect(rows.filter((row) => row.planted.length > 0 || row.cells !== null)).toEqual([]);
  });
});
