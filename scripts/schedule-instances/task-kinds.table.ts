/** Ways to handle the boat and the tasks of the synthetic instances: figures of ours, chosen so that windows are scarce. */

export interface Handling {
  readonly name: string;
  /** Wind over the deck and height of the sea felt, as shares of what blows and runs. */
  readonly windRatio: number;
  readonly seaRatio: number;
  /** Slots of way lost per slot of work. */
  readonly lostShare: number;
}

export const HANDLINGS = [
  { name: 'hold course', windRatio: 1.12, seaRatio: 1.0, lostShare: 0 },
  { name: 'run off', windRatio: 0.72, seaRatio: 0.85, lostShare: 0.5 },
  { name: 'heave to', windRatio: 1.02, seaRatio: 0.75, lostShare: 1.0 },
  { name: 'fore-reach', windRatio: 1.08, seaRatio: 0.9, lostShare: 0.6 },
] as const satisfies readonly Handling[];

export interface TaskKind {
  readonly name: string;
  /** The whole task, or one unit of it. */
  readonly workMin: number;
  readonly windLimitKn: number;
  readonly waveLimitM: number;
  readonly needsLight: boolean;
  /** Least alertness at the end. */
  readonly alertnessPoints: number;
  /** Indexes into HANDLINGS. */
  readonly handlings: readonly number[];
  /** Indexes of the tasks before it. */
  readonly after: readonly number[];
  /** Worked in sessions: units in all, fewest in a session that does not finish, minutes to lay out before each. */
  readonly sessions: { readonly unitCount: number; readonly leastUnitCount: number; readonly layOutMin: number } | null;
  /** What it does to the mainsail. */
  readonly mainsail: 'drops' | 'hoists' | null;
}

export const REPAIR_KINDS = [
  {
    name: 'drop the main',
    workMin: 45,
    windLimitKn: 15,
    waveLimitM: 2.2,
    needsLight: false,
    alertnessPoints: 6.5,
    handlings: [1, 2],
    after: [],
    sessions: null,
    mainsail: 'drops',
  },
  {
    name: 'inspect the rig',
    workMin: 30,
    windLimitKn: 18,
    waveLimitM: 2.4,
    needsLight: true,
    alertnessPoints: 6.0,
    handlings: [0, 1],
    after: [],
    sessions: null,
    mainsail: null,
  },
  {
    name: 'stitch the main',
    workMin: 30,
    windLimitKn: 20,
    waveLimitM: 2.3,
    needsLight: false,
    alertnessPoints: 5.5,
    handlings: [0, 2],
    after: [0],
    sessions: { unitCount: 8, leastUnitCount: 2, layOutMin: 15 },
    mainsail: null,
  },
  {
    name: 'cut battens',
    workMin: 75,
    windLimitKn: 25,
    waveLimitM: 2.0,
    needsLight: false,
    alertnessPoints: 6.0,
    handlings: [0, 2],
    after: [1],
    sessions: null,
    mainsail: null,
  },
  {
    name: 'reeve a halyard',
    workMin: 90,
    windLimitKn: 14,
    waveLimitM: 1.9,
    needsLight: true,
    alertnessPoints: 7.0,
    handlings: [1, 2],
    after: [1],
    sessions: null,
    mainsail: null,
  },
  {
    name: 'fit battens',
    workMin: 45,
    windLimitKn: 17,
    waveLimitM: 2.2,
    needsLight: false,
    alertnessPoints: 6.0,
    handlings: [0, 2],
    after: [2, 3],
    sessions: null,
    mainsail: null,
  },
  {
    name: 'hoist the main',
    workMin: 45,
    windLimitKn: 16,
    waveLimitM: 2.2,
    needsLight: false,
    alertnessPoints: 6.5,
    handlings: [2, 3],
    after: [5, 4],
    sessions: null,
    mainsail: 'hoists',
  },
  {
    name: 'check the engine',
    workMin: 60,
    windLimitKn: 30,
    waveLimitM: 2.8,
    needsLight: false,
    alertnessPoints: 5.5,
    handlings: [0],
    after: [],
    sessions: null,
    mainsail: null,
  },
  {
    name: 'clean the water maker',
    workMin: 60,
    windLimitKn: 30,
    waveLimitM: 2.6,
    needsLight: false,
    alertnessPoints: 5.5,
    handlings: [0, 2],
    after: [],
    sessions: null,
    mainsail: null,
  },
  {
    name: 'refasten a bracket',
    workMin: 45,
    windLimitKn: 18,
    waveLimitM: 2.4,
    needsLight: true,
    alertnessPoints: 6.0,
    handlings: [0, 1],
    after: [],
    sessions: null,
    mainsail: null,
  },
] as const satisfies readonly TaskKind[];
