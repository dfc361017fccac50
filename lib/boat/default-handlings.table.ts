import type { Handling, Levels } from './boat.ts';
import { LEEWAY_ROWS } from './leeway.table.ts';

const OURS = 'common practice, no source';

const WITH_MAIN: readonly string[] = ['full-main', 'deep-reef'];
const WITH_HEADSAIL: readonly string[] = ['full-main', 'deep-reef', 'headsail-only'];
const ANY: readonly string[] = ['full-main', 'deep-reef', 'headsail-only', 'bare-poles'];

/** Above any speed these boats reach under control: the speed table alone decides. */
const UNCAPPED_KN = 20;

const levels = (ideal: number, caution: number, noGo: number): Levels => ({ ideal, caution, noGo });

const BARE_MASTED_DRIFT_RATIO = LEEWAY_ROWS.find(({ id }) => id === 'bare-masted')?.downwindRatio ?? 0;

/**
 * Handlings of an ocean cruiser with a fin keel, used until the passage brings its own; every figure is a default to be
 * replaced by what this boat does.
 *
 * Speeds under sail fall to nothing with the wind: `speedLeastKn` is only above 0 where an engine drives. Heaving to
 * and fore-reaching need a mainsail. Minutes to settle: setting her up, and watching for a while that she stays so.
 */
export const DEFAULT_HANDLINGS: readonly Handling[] = [
  {
    id: 'hold-course',
    name: 'Hold the course',
    sailStates: ANY,
    heading: { kind: 'course' },
    speedRatio: 1,
    speedLeastKn: 0,
    speedMostKn: UNCAPPED_KN,
    driftRatio: 0,
    settleMin: 0,
    limits: { trueWindKn: levels(25, 33, 40), seaHeightM: levels(4, 5, 6) },
    provenance: OURS,
  },
  {
    id: 'run-off',
    name: 'Run off before the wind',
    sailStates: WITH_HEADSAIL,
    heading: { kind: 'wind-angle', twaDeg: 170 },
    speedRatio: 1,
    speedLeastKn: 0,
    speedMostKn: UNCAPPED_KN,
    driftRatio: 0,
    settleMin: 5,
    limits: { trueWindKn: levels(18, 25, 30), seaHeightM: levels(2.5, 3.5, 4.5) },
    provenance: OURS,
  },
  {
    id: 'broad-reach',
    name: 'Broad reach under headsail',
    sailStates: WITH_HEADSAIL,
    heading: { kind: 'wind-angle', twaDeg: 140 },
    speedRatio: 1,
    speedLeastKn: 0,
    speedMostKn: UNCAPPED_KN,
    driftRatio: 0.015,
    settleMin: 5,
    limits: { trueWindKn: levels(16, 24, 30), seaHeightM: levels(2.2, 3.2, 4.2) },
    provenance: OURS,
  },
  {
    id: 'close-reach-headsail',
    name: 'Close reach under headsail, sheet eased',
    sailStates: ['headsail-only'],
    heading: { kind: 'wind-angle', twaDeg: 58 },
    speedRatio: 0.6,
    speedLeastKn: 0,
    speedMostKn: 4,
    driftRatio: 0.03,
    settleMin: 10,
    limits: { trueWindKn: levels(15, 20, 25), seaHeightM: levels(2, 3, 3.5) },
    provenance: OURS,
  },
  {
    id: 'close-reach-luffing',
    name: 'Close reach, main luffing',
    sailStates: WITH_MAIN,
    heading: { kind: 'wind-angle', twaDeg: 65 },
    speedRatio: 0.35,
    speedLeastKn: 0,
    speedMostKn: 3,
    driftRatio: 0.03,
    settleMin: 10,
    limits: { trueWindKn: levels(18, 25, 32), seaHeightM: levels(2, 3, 4) },
    provenance: OURS,
  },
  {
    id: 'heave-to',
    name: 'Heave to',
    sailStates: WITH_MAIN,
    // About 50° true, forging ahead at half a knot to two knots: articles and owners' reports of little authority.
    heading: { kind: 'wind-angle', twaDeg: 50 },
    speedRatio: 0.15,
    speedLeastKn: 0,
    speedMostKn: 2,
    driftRatio: 0.04,
    settleMin: 15,
    limits: { trueWindKn: levels(20, 35, 45), seaHeightM: levels(3, 5, 7) },
    provenance: OURS,
  },
  {
    id: 'fore-reach',
    name: 'Fore-reach',
    sailStates: WITH_MAIN,
    heading: { kind: 'wind-angle', twaDeg: 55 },
    speedRatio: 0.4,
    speedLeastKn: 0,
    speedMostKn: 3.5,
    driftRatio: 0.025,
    settleMin: 10,
    limits: { trueWindKn: levels(20, 28, 38), seaHeightM: levels(2.5, 4, 5.5) },
    provenance: OURS,
  },
  {
    id: 'steady-reach',
    name: 'Slow reach under main, for steadiness',
    sailStates: WITH_MAIN,
    heading: { kind: 'wind-angle', twaDeg: 80 },
    speedRatio: 0.8,
    speedLeastKn: 0,
    speedMostKn: 6,
    driftRatio: 0.03,
    settleMin: 10,
    limits: { trueWindKn: levels(7, 10, 13), seaHeightM: levels(0.8, 1.2, 1.6) },
    provenance: OURS,
  },
  {
    id: 'beam-to',
    name: 'Beam to the wind, sheet right off',
    sailStates: WITH_MAIN,
    heading: { kind: 'wind-angle', twaDeg: 90 },
    speedRatio: 0.2,
    speedLeastKn: 0,
    speedMostKn: 2,
    driftRatio: 0.035,
    settleMin: 10,
    limits: { trueWindKn: levels(20, 28, 35), seaHeightM: levels(2, 3.5, 4.5) },
    provenance: OURS,
  },
  {
    id: 'motor-to-wind',
    name: 'Motor head to wind',
    sailStates: ANY,
    heading: { kind: 'wind-angle', twaDeg: 10 },
    speedRatio: 0,
    speedLeastKn: 3,
    speedMostKn: 3,
    driftRatio: 0.01,
    settleMin: 5,
    limits: { trueWindKn: levels(10, 15, 20), seaHeightM: levels(0.8, 1.3, 1.8) },
    provenance: OURS,
  },
  {
    id: 'lie-ahull',
    name: 'Lie a-hull',
    // The headsail is furled for it.
    sailStates: ['headsail-only', 'bare-poles'],
    heading: { kind: 'wind-angle', twaDeg: 95 },
    speedRatio: 0,
    speedLeastKn: 0,
    speedMostKn: 1,
    driftRatio: BARE_MASTED_DRIFT_RATIO,
    settleMin: 10,
    limits: { trueWindKn: levels(7, 12, 16), seaHeightM: levels(0.8, 1.3, 1.8) },
    provenance: 'ALLEN_PLOURDE_1999 (drift); common practice, no source (limits)',
  },
  {
    id: 'bare-poles',
    name: 'Run under bare poles',
    sailStates: ['bare-poles'],
    heading: { kind: 'wind-angle', twaDeg: 170 },
    speedRatio: 1,
    speedLeastKn: 0,
    speedMostKn: UNCAPPED_KN,
    driftRatio: 0,
    settleMin: 5,
    limits: { trueWindKn: levels(20, 35, 45), seaHeightM: levels(3, 5, 7) },
    provenance: OURS,
  },
  {
    id: 'drogue',
    name: 'Run with a drogue',
    sailStates: ['headsail-only', 'bare-poles'],
    heading: { kind: 'wind-angle', twaDeg: 170 },
    speedRatio: 0.6,
    speedLeastKn: 0,
    speedMostKn: 4,
    driftRatio: 0,
    settleMin: 20,
    limits: { trueWindKn: levels(30, 42, 55), seaHeightM: levels(4, 6, 8) },
    provenance: OURS,
  },
];
