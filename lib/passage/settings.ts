import type { z } from 'zod';
import type { Position } from '../geo/index.ts';
import type { Settings } from './passage.ts';
import type { settingsFile } from './passage-file.ts';

export type SettingsFile = z.infer<typeof settingsFile>;

/** Defaults of everything that does not depend on anything else; engineering choices and common practice, no source. */
export const DEFAULT_SETTINGS: Omit<Settings, 'longestSleepMin' | 'shipTimeOffsetMin'> = {
  wantedProbability: 0.8,
  probabilityTolerancePoints: 2,
  slotMin: 10,
  horizonH: null,
  seed: 1,
  errorModel: 'default',
  contingencyShare: 0.5,
  contingencyLeastMin: 30,
  planningLimitRatio: 0.94,
  keepPlanUnlessBetterPoints: 5,
  spreadInflationRatio: 1,
  gustRatio: 1.3,
  deckHeightM: 2,
  traffic: 'ocean',
  steadyingWindRule: true,
  eyeHeightM: 2.5,
  otherShipKn: 20,
  lookoutLongestMin: 20,
};

export const DEFAULT_SLEEP_EFFICIENCY_RATIO = 0.85;

/** Longest sleep without a look-out [min] by traffic; engineering choice, no source. */
const LONGEST_SLEEP_MIN: Readonly<Record<Settings['traffic'], number>> = {
  ocean: 180,
  lane: 20,
  coast: 20,
  ice: 20,
};

/** Settings with their defaults; ship's time by default the whole hour nearest to the longitude of the start. */
export function fillSettings(file: SettingsFile, start: Position): Settings {
  const { sleepEfficiencyRatio: _person, ...own } = file;
  const traffic = own.traffic ?? DEFAULT_SETTINGS.traffic;
  return {
    ...DEFAULT_SETTINGS,
    longestSleepMin: LONGEST_SLEEP_MIN[traffic],
    shipTimeOffsetMin: Math.round(start.lon / 15) * 60,
    ...own,
  };
}

/** Paths of the settings a file leaves to their default. */
export function defaultSettings(file: SettingsFile): readonly string[] {
  const keys = [...Object.keys(DEFAULT_SETTINGS), 'longestSleepMin', 'shipTimeOffsetMin', 'sleepEfficiencyRatio'];
  return keys.filter((key) => !(key in file)).map((key) => `settings.${key}`);
}
