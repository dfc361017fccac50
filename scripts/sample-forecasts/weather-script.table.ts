/** Weather met at one hour by a boat that keeps to the demo's track and speed. All invented. */
export interface ScriptRow {
  /** Hours after the start of the voyage. */
  readonly h: number;
  readonly windFromDegTrue: number;
  readonly windKn: number;
  readonly gustKn: number;
  readonly seaHeightM: number;
  readonly peakPeriodS: number;
  readonly waveFromDegTrue: number;
  readonly rainMmPerH: number;
  readonly airC: number;
  readonly pressureHpa: number;
}

type Columns = readonly [number, number, number, number, number, number, number, number, number, number];

/**
 * Hour; wind from, speed, gust; sea height, peak period, from; rain; air; pressure.
 *
 * A gale has just gone through at the start. It blows off over 30 h and leaves a swell; a ridge brings about 10 h of
 * light air in daylight (+25 to +35); the next front comes at +70; a second, longer ridge at +114 to +138; then trades.
 * Rows before -18 and after 186 lie beyond the boat's reach and only fill the map ahead of and behind it.
 */
const ROWS: readonly Columns[] = [
  [-130, 222, 19, 26, 3.1, 11, 222, 0.2, 13, 1014],
  [-110, 180, 12, 16, 2.5, 12, 215, 0, 13.5, 1021],
  [-90, 130, 8, 11, 2, 12.5, 210, 0, 15, 1025],
  [-70, 80, 9, 12, 1.8, 12, 208, 0, 15.5, 1023],
  [-52, 40, 14, 19, 2, 7, 45, 0, 16, 1017],
  [-36, 10, 22, 30, 2.8, 7.8, 15, 0.5, 17, 1008],
  [-26, 330, 28, 40, 3.4, 8.3, 335, 3, 17, 1001],
  [-18, 300, 30, 43, 3.7, 8.5, 300, 2, 16, 997.5],
  [-12, 238, 31, 44, 3.5, 9, 245, 2, 13, 999],
  [0, 222, 26.5, 36, 3.3, 10, 226, 0.3, 12.5, 1008],
  [6, 214, 25.5, 34, 3.36, 10.5, 222, 0.2, 12.5, 1012.5],
  [9, 209, 23.5, 31.5, 3.36, 10.8, 220, 0.1, 12.5, 1014.5],
  [12, 204, 21, 28, 3.18, 11, 218, 0, 12.5, 1016.5],
  [18, 190, 15, 20, 2.66, 12, 214, 0, 12.5, 1020],
  [24, 165, 10, 13, 2.2, 12.5, 210, 0, 13, 1022],
  [30, 110, 6, 8, 1.88, 13, 208, 0, 14, 1023],
  [34, 75, 6, 8, 1.72, 13, 207, 0, 14.5, 1023],
  [40, 45, 9, 12, 1.6, 12.5, 207, 0, 14.5, 1022],
  [46, 30, 14, 19, 1.75, 6.5, 40, 0, 14.5, 1020],
  [52, 15, 20, 27, 2.3, 7, 15, 0.1, 15, 1016.5],
  [58, 0, 25, 34, 3, 7.8, 0, 0.5, 16, 1012.5],
  [64, 345, 29, 41, 3.7, 8.4, 350, 2, 17, 1008],
  [70, 330, 32, 47, 4.3, 9, 340, 5, 17, 1003.5],
  [71, 240, 27, 40, 4.3, 9, 310, 2, 14, 1004.5],
  [76, 235, 27, 38, 4.2, 10, 240, 0.8, 13, 1007.5],
  [86, 225, 23, 31, 3.9, 11, 230, 0.3, 12.5, 1013.5],
  [97, 212, 18, 24, 3.2, 11.5, 225, 0, 13, 1020],
  [106, 195, 13, 17, 2.7, 12, 220, 0, 13.5, 1024],
  [114, 165, 9, 12, 2.3, 12.5, 215, 0, 14, 1026.5],
  [122, 130, 7, 9, 2, 13, 212, 0, 15.5, 1028],
  [130, 100, 8, 11, 1.85, 13, 210, 0, 16, 1028],
  [138, 85, 12, 16, 1.8, 12.5, 210, 0, 16, 1027.5],
  [150, 80, 16, 21, 2.1, 8, 80, 0, 17, 1025.5],
  [172, 78, 19, 25, 2.4, 8.5, 80, 0.2, 18, 1019.5],
  [196, 82, 18, 24, 2.3, 8.3, 82, 0.2, 18.5, 1019],
  [230, 95, 15, 20, 2.1, 8, 88, 0.1, 19, 1020],
  [270, 90, 17, 23, 2.2, 8.2, 88, 0.1, 19, 1018.5],
];

export const scriptRows: readonly ScriptRow[] = ROWS.map((columns) => {
  const [h, windFromDegTrue, windKn, gustKn, seaHeightM, peakPeriodS, waveFromDegTrue, rainMmPerH, airC, pressureHpa] =
    columns;
  return {
    h,
    windFromDegTrue,
    windKn,
    gustKn,
    seaHeightM,
    peakPeriodS,
    waveFromDegTrue,
    rainMmPerH,
    airC,
    pressureHpa,
  };
});
