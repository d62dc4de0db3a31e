/** Climate of a station, degC: yearly mean, half the swing of the year and of the day, and the warmest day of the year. */
export interface Climate {
  readonly meanC: number;
  readonly seasonC: number;
  readonly dailyC: number;
  readonly warmestDay: number;
}

/** A station of the invented archipelago, in the shape of the station register. */
export interface DemoStation {
  readonly code: string;
  readonly name: string;
  /** Fixed offset from UTC; the archipelago knows no summer time. */
  readonly zone: string;
  readonly utcOffsetMinutes: number;
  readonly climate: Climate;
  /** Into-plane agent, or null where the supplier's own people pump. */
  readonly agent: string | null;
}

const kitevane = 'Kitevane Fuelling';

function station(
  code: string,
  name: string,
  utcOffsetMinutes: number,
  [meanC, seasonC, dailyC, warmestDay]: readonly [number, number, number, number],
  agent: string | null = null
): DemoStation {
  const hours = Math.floor(utcOffsetMinutes / 60);
  const zone = `+${String(hours).padStart(2, '0')}:${String(utcOffsetMinutes % 60).padStart(2, '0')}`;
  return {
    code,
    name,
    zone,
    utcOffsetMinutes,
    climate: { meanC, seasonC, dailyC, warmestDay },
    agent
  };
}

/** The twelve stations. Codes start with J, which no place on Earth uses; names are invented. */
export const demoStations: readonly DemoStation[] = [
  station('JARV', 'Arvenholm', 120, [13, 9, 4, 205], kitevane),
  station('JBEL', 'Belmaris', 120, [17, 8, 5, 208], kitevane),
  station('JCOD', 'Cordane', 120, [11, 9, 4, 202]),
  station('JDUM', 'Dunmarrow', 60, [9, 8, 3, 210]),
  station('JESK', 'Eskaval', 120, [6, 10, 3, 200]),
  station('JFEN', 'Fennary', 60, [14, 7, 5, 212], kitevane),
  station('JGAL', 'Galverra', 210, [24, 5, 6, 190]),
  station('JHOS', 'Holsey Reach', 120, [8, 7, 3, 206]),
  station('JIVA', 'Ivarra', 180, [21, 5, 6, 195]),
  station('JKES', 'Keswin', 270, [30, 5, 6, 170]),
  station('JLOM', 'Lomara', 150, [22, 4, 4, 215], kitevane),
  station('JNER', 'Nerrin Sound', 150, [10, 8, 4, 208])
];

/** Index of a station by its code; throws on an unknown one. */
export function stationIndex(code: string): number {
  const index = demoStations.findIndex((entry) => entry.code === code);
  if (index < 0) throw new RangeError(`station: ${code}, need a code of the demo`);
  return index;
}
