import type { QuantityId } from '../../../lib/forecast/index.ts';
import type { Passage } from '../../../lib/passage/index.ts';

type Limits = Passage['jobs'][number]['steps'][number]['limits'];

/** Whether a limit of a step asks for a quantity; of others a job may be planned without knowing them. */
const ASKED_BY: Readonly<Partial<Record<QuantityId, (limits: Limits) => boolean>>> = {
  wind: ({ deckWindKn, deckGustNoGoKn }) => deckWindKn !== null || deckGustNoGoKn !== null,
  seaHeight: ({ seaHeightM, steepnessNoGoRatio }) => seaHeightM !== null || steepnessNoGoRatio !== null,
  wavePeriod: ({ steepnessNoGoRatio }) => steepnessNoGoRatio !== null,
  rain: ({ rain, dryBeforeH }) => rain === 'none' || dryBeforeH !== null,
  air: ({ airLeastC }) => airLeastC !== null,
  seaWater: ({ seaWaterLeastC }) => seaWaterLeastC !== null,
  visibility: ({ visibilityLeastNm }) => visibilityLeastNm !== null,
};

/** Names of jobs with a limit on a quantity. A gust that is not held is estimated, so none waits for it. */
export function jobsInNeed({ jobs }: Pick<Passage, 'jobs'>, quantity: QuantityId): string[] {
  const isAsked = ASKED_BY[quantity];
  if (isAsked === undefined) return [];
  return jobs.filter(({ steps }) => steps.some(({ limits }) => isAsked(limits))).map(({ name }) => name);
}
