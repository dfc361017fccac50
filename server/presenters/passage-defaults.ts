import {
  DEFAULT_SLEEP_EFFICIENCY_RATIO,
  fillSettings,
  type PassageFile,
  WATCHKEEPER_DEFAULTS,
} from '../../lib/passage/index.ts';
import { DEFAULT_GATES, DEFAULT_TIME_FACTORS } from '../../lib/person/index.ts';
import { textsOf } from '../entry-forms/index.ts';
import { PACE_KINDS, SETTINGS_FIELDS, WATCHKEEPER_FIELDS } from '../passage-forms/index.ts';

type Texts = ReadonlyMap<string, string>;

/** What each setting is where the passage says nothing of it; two of them go by what it says of others. */
export function settingsDefaults({ settings: { traffic } = {}, start }: PassageFile): Texts {
  const filled = fillSettings(traffic === undefined ? {} : { traffic }, start);
  const { traffic: ocean } = fillSettings({}, start);
  return new Map([
    ...textsOf(SETTINGS_FIELDS, {
      ...filled,
      traffic: ocean,
      steadyingWindRule: String(filled.steadyingWindRule),
      sleepEfficiencyRatio: DEFAULT_SLEEP_EFFICIENCY_RATIO,
    }),
    ['horizonH', 'to the end of the forecast'],
  ]);
}

/** The same of the watchkeeper. */
export function watchkeeperDefaults({ watchkeeper }: PassageFile): Texts {
  const { paceRatio } = WATCHKEEPER_DEFAULTS;
  const texts = textsOf(WATCHKEEPER_FIELDS, {
    ...WATCHKEEPER_DEFAULTS,
    gates: DEFAULT_GATES,
    timeFactors: DEFAULT_TIME_FACTORS,
  });
  const ownPace = String(watchkeeper?.paceRatio ?? paceRatio);
  return new Map([...texts, ...PACE_KINDS.map(([kind]) => [`paceByWork.${kind}.ratio`, ownPace] as const)]);
}
