import type { Passage } from '../passage/index.ts';
import type { DefaultSetting } from './plan-picture.ts';

/** Settings that decide the plan and that nobody has edited, in the words a page marks them with. */
export function picturedDefaults(passage: Passage): DefaultSetting[] {
  const { settings } = passage;
  const known: Readonly<Record<string, DefaultSetting>> = {
    wantedProbability: { name: 'wanted probability', text: `${Math.round(settings.wantedProbability * 100)} of 100` },
    contingencyShare: {
      name: 'contingency',
      text: `${Math.round(settings.contingencyShare * 100)} % of the work, ${settings.contingencyLeastMin} min at least`,
    },
    longestSleepMin: { name: 'longest sleep', text: `${settings.longestSleepMin} min (${settings.traffic})` },
    gustRatio: { name: 'gust where none is forecast', text: `${settings.gustRatio} times the mean` },
    deckHeightM: { name: 'deck height', text: `${settings.deckHeightM} m` },
    planningLimitRatio: { name: 'limits while searching', text: `${Math.round(settings.planningLimitRatio * 100)} %` },
  };
  return passage.defaultsUsed.flatMap((path) => known[path.split('.').at(-1) ?? ''] ?? []);
}
