/** Conditions for tests of windows: a boat that stays where she is, weather given by functions of the slot. */
import { DEFAULT_HANDLINGS, DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import type { Handling } from '../../lib/boat/index.ts';
import type { Job } from '../../lib/jobs/index.ts';
import { DEFAULT_TIME_FACTORS } from '../../lib/person/index.ts';
import { blocksOf } from '../../lib/jobs/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import { conditionsAlong } from '../../lib/voyage/index.ts';
import type { BlockTable, BlockWork, TableSettings } from '../../lib/windows/index.ts';
import { blockTable } from '../../lib/windows/block-table.ts';
import { wholeBlockMin } from '../../lib/windows/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { BASE_EPOCH_MS, littleWeather, speedRows } from '../planner/little-world.ts';

export const SLOT_COUNT = 100;

/** Hour after the forecast's base time to slot. */
export const slotOf = (hourH: number): number => Math.round(hourH * 6);

interface Setting {
  readonly boatSpeedKn?: number;
  /** At 10 m the deck has the forecast's own wind: limits can be met exactly. */
  readonly deckHeightM?: number;
  readonly slotCount?: number;
  readonly courseTowardDegTrue?: number;
}

/** Slot 0 is the base time, in June at 35° S 30° W; every slot is 10 minutes. */
export function tableConditions(scenarios: readonly LittleWeather[], setting: Setting = {}): Conditions {
  const slotCount = setting.slotCount ?? SLOT_COUNT;
  const fill = (value: number): Float64Array => new Float64Array(slotCount).fill(value);
  const weather = littleWeather(scenarios, slotCount);
  const tables = {
    'full-main': speedRows(setting.boatSpeedKn ?? 0),
    'headsail-only': speedRows(setting.boatSpeedKn ?? 0),
  };
  return conditionsAlong({
    course: {
      grid: { firstEpochMs: BASE_EPOCH_MS, slotMin: 10, slotCount },
      lat: fill(-35),
      lon: fill(-30),
      courseTowardDegTrue: fill(setting.courseTowardDegTrue ?? 90),
      alongNm: fill(0),
    },
    boat: {
      name: 'table boat',
      instrumentHeightM: 18,
      sailStates: DEFAULT_SAIL_STATES,
      speedTables: tables,
      handlings: DEFAULT_HANDLINGS,
    },
    deckHeightM: setting.deckHeightM ?? 10,
    sampleScenarios: weather.sampleScenarios,
    sampleReference: weather.sampleReference,
  });
}

/** The same with light of our choice (index into LIGHTS) in every slot. */
export const withLight = (conditions: Conditions, lightAt: (slot: number) => number): Conditions => ({
  ...conditions,
  light: Uint8Array.from(conditions.light, (_, i) => lightAt(i)),
});

export const handling = (id: string): Handling => {
  const found = DEFAULT_HANDLINGS.find((known) => known.id === id);
  if (found === undefined) throw new Error(`no handling ${id}`);
  return found;
};

const LOOKOUT = { eyeHeightM: 2.5, otherShipKn: 20, longestMin: 20 };

export function tableSettings(conditions: Conditions, rest: Partial<TableSettings> = {}): TableSettings {
  const { scenarioCount } = conditions.weather;
  return {
    weights: new Int32Array(scenarioCount).fill(1_000_000 / scenarioCount),
    baseEpochMs: BASE_EPOCH_MS,
    limitRatio: 1,
    contingencyShare: 0.5,
    contingencyLeastMin: 30,
    steadyingWindRule: false,
    ownPaceRatioOf: () => 1,
    gloves: 'none',
    timeFactors: DEFAULT_TIME_FACTORS,
    lookout: LOOKOUT,
    ...rest,
  };
}

/** Table of the first block of a job under a handling. */
export function tableOf(
  job: Job,
  conditions: Conditions,
  rest: { settings?: Partial<TableSettings>; work?: Partial<BlockWork> } = {},
): BlockTable {
  const [block] = blocksOf(job);
  if (block === undefined) throw new Error('the job has no block');
  const work = {
    block,
    handling: handling('hold-course'),
    sailStateId: 'full-main',
    workMin: wholeBlockMin(block),
    resumeMin: 0,
    tiredRatio: 1,
  };
  return blockTable({ ...work, ...rest.work }, conditions, tableSettings(conditions, rest.settings));
}

/** Start slots with some weight. */
export const fairSlots = (table: BlockTable): number[] =>
  [...table.weight.keys()].filter((i) => (table.weight[i] ?? 0) > 0);

/** Whole numbers from first to last, both included. */
export const range = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, k) => first + k);
