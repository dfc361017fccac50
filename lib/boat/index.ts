export type { Boat, Handling, Levels, SailState, SpeedRow } from './boat.ts';
