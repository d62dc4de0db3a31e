import { stretches, type Steps } from '#lib/core/statistics/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from '../context.ts';

/** The station most of a vehicle's rows stand at. */
export function* stationsOfVehicles(
  context: QuestionContext,
  filter: RecordFilter
): Steps<Map<string, string>> {
  const { columns } = context.ledger.source;
  const vehicle = columns.code('vehicle');
  const station = columns.code('station');
  const counts = new Map<number, Map<number, number>>();
  const { refuellings } = context.select(filter);
  yield* stretches(refuellings.length, (from, to) => {
    for (let i = from; i < to; i++) {
      const row = refuellings[i] as number;
      const stations = counts.get(vehicle.at(row)) ?? new Map<number, number>();
      stations.set(station.at(row), (stations.get(station.at(row)) ?? 0) + 1);
      counts.set(vehicle.at(row), stations);
    }
  });
  return new Map(
    [...counts].map(([code, stations]) => {
      const [most] = [...stations].sort((a, b) => b[1] - a[1]);
      return [vehicle.dictionary.text(code), station.dictionary.text(most?.[0] ?? 0)];
    })
  );
}
