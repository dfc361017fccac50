import {
  DEFAULT_HANDLINGS,
  DEFAULT_SAIL_STATES,
  type Boat,
  type Handling,
  type SpeedRow,
} from '../../lib/boat/index.ts';

/** Invented table, round figures, so that results can be worked by hand. */
export const fullSail: readonly SpeedRow[] = [
  { twaDeg: 45, twsKn: 10, boatSpeedKn: 5 },
  { twaDeg: 45, twsKn: 20, boatSpeedKn: 6 },
  { twaDeg: 90, twsKn: 10, boatSpeedKn: 7 },
  { twaDeg: 90, twsKn: 20, boatSpeedKn: 9 },
  { twaDeg: 180, twsKn: 10, boatSpeedKn: 5 },
  { twaDeg: 180, twsKn: 20, boatSpeedKn: 8 },
];

export const testBoat: Boat = {
  name: 'test boat',
  instrumentHeightM: 20,
  sailStates: DEFAULT_SAIL_STATES,
  speedTables: { 'full-main': fullSail },
  handlings: DEFAULT_HANDLINGS,
};

/** A default handling by id. */
export function handlingOf(id: string): Handling {
  const found = DEFAULT_HANDLINGS.find((handling) => handling.id === id);
  if (found === undefined) throw new Error(`no handling ${id}`);
  return found;
}
