/** The demo passage made ready for the studies. */
import { buildScenarioSet, sampleReference, sampleScenarios, type ScenarioSet } from '../../lib/forecast/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import type { StudyWeather } from './joint-study.ts';
import { prepared, type PlanningWeather, type Preparation, type ReportingWeather } from './planner.ts';

const DEMO = 'sample-forecasts/demo-passage.json';

export interface StudyDemo {
  readonly preparation: Preparation;
  readonly weather: StudyWeather;
}

export async function demoForStudy(): Promise<StudyDemo> {
  const loaded = await loadPassage(DEMO);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const { passage, forecast } = loaded.value;
  const planning = buildScenarioSet(forecast, { ...optionsOf(passage), purpose: 'planning' });
  const weather: PlanningWeather = {
    baseEpochMs: forecast.baseEpochMs,
    endEpochMs: forecast.endEpochMs,
    weights: planning.weights,
    sampleScenarios: (points) => sampleScenarios(planning, points),
    sampleReference: (points) => sampleReference(planning, points),
  };
  const drawn = (seed: number): ReportingWeather =>
    freshOf(buildScenarioSet(forecast, { ...optionsOf(passage), seed, purpose: 'reporting' }));
  const { seed } = passage.settings;
  return {
    preparation: prepared(passage, weather),
    weather: { reporting: drawn(seed), judging: drawn(seed + 1) },
  };
}

const freshOf = (set: ScenarioSet): ReportingWeather => ({
  weights: set.weights,
  sampleScenarios: (points) => sampleScenarios(set, points),
  memberIndex: memberIndexOf(set),
});

function memberIndexOf(set: ScenarioSet): Int32Array {
  const members = [...new Set(set.sources.map(({ memberId }) => memberId))];
  return Int32Array.from(set.sources, ({ memberId }) => members.indexOf(memberId));
}

function optionsOf({ settings }: Passage): Omit<Parameters<typeof buildScenarioSet>[1], 'purpose'> {
  const { errorModel, seed, spreadInflationRatio, gustRatio } = settings;
  return { errorModel, seed, spreadInflationRatio, gustRatio };
}
