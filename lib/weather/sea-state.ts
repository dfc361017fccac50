export interface SeaState {
  readonly stateCode: number;
  readonly name: string;
  /** Upper bound of significant height; a height exactly on a bound has the lower code. */
  readonly mostM: number;
}

/** State of the sea, Code Table 3700: sources.WMO_306. */
const SEA_STATES: readonly SeaState[] = [
  { stateCode: 0, name: 'calm (glassy)', mostM: 0 },
  { stateCode: 1, name: 'calm (rippled)', mostM: 0.1 },
  { stateCode: 2, name: 'smooth', mostM: 0.5 },
  { stateCode: 3, name: 'slight', mostM: 1.25 },
  { stateCode: 4, name: 'moderate', mostM: 2.5 },
  { stateCode: 5, name: 'rough', mostM: 4 },
  { stateCode: 6, name: 'very rough', mostM: 6 },
  { stateCode: 7, name: 'high', mostM: 9 },
  { stateCode: 8, name: 'very high', mostM: 14 },
  { stateCode: 9, name: 'phenomenal', mostM: Infinity },
];

/** State of the sea of a significant wave height [m], Code Table 3700. */
export function seaState(seaHeightM: number): SeaState {
  const found = SEA_STATES.find((row) => seaHeightM <= row.mostM);
  if (found === undefined) throw new Error(`no sea state for a wave height of ${seaHeightM} m`);
  return found;
}
