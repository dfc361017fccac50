/** Changes of a job or of what is asked of it, each as small as a sailor would think of it. */
import type { Job, Step } from '../jobs/index.ts';
import type { WindowSearch } from '../windows/index.ts';
import { workingSailState } from '../windows/index.ts';

export type ChangeKind =
  | 'handling'
  | 'split'
  | 'rows'
  | 'practice'
  | 'contingency'
  | 'daylight'
  | 'wind'
  | 'sea'
  | 'wanted-probability';

/** What is changed, and by or to how much. */
export interface Change {
  readonly change: ChangeKind;
  readonly amount: number;
  readonly unit: string;
  /** The handling, or the step it is split after; null: no name. */
  readonly name: string | null;
}

/** A job with one block, and how its windows are searched. */
export interface Searched {
  readonly job: Job;
  readonly search: WindowSearch;
}

/** A change and what it makes of the search. */
export interface Changed extends Searched {
  readonly change: Change;
}

/** Up the mast and over the side no limit is loosened, and no reserve: overriding a no-go there is the skipper's own logged act. */
const isExposed = (step: Step): boolean => step.place === 'aloft' || step.place === 'overside';

/** Whether some of the work is aloft or overside. */
export const hasExposed = (job: Pick<Job, 'steps'>): boolean => job.steps.some(isExposed);

/** Every other handling of the boat that exists in the sail state the work is done in, in the boat's order. */
export function otherHandlings({ job, search }: Searched): Changed[] {
  const sailStateId = workingSailState(job.sailStates, search.sailStateId);
  return search.handlings
    .filter(({ id, sailStates }) => !job.handlings.includes(id) && sailStates.includes(sailStateId))
    .map(({ id }) => ({
      change: { change: 'handling', amount: 1, unit: 'handling', name: id },
      job: { ...job, handlings: [id] },
      search,
    }));
}

/** The block in two, at every place where the work may be left: after any step but one that is never stopped. */
export function splits({ job, search }: Searched): Changed[] {
  return job.steps.slice(0, -1).flatMap((step, k): Changed[] => {
    if (step.stop === 'never') return [];
    const steps = job.steps.map((other, index) => (index === k ? { ...other, safePointAfter: true } : other));
    return [
      { change: { change: 'split', amount: k + 1, unit: 'step', name: step.id }, job: { ...job, steps }, search },
    ];
  });
}

/** Rows of stitches of a job's seam. */
export interface Rows {
  readonly stepId: string;
  readonly rowCount: number;
}

/** One row of stitches fewer: minutes with the needle go with the number of rows, all else stays. */
export function fewerRows({ job, search }: Searched, rows: Rows | null): Changed[] {
  if (rows === null || rows.rowCount < 2 || !job.steps.some((step) => step.id === rows.stepId)) return [];
  const share = (rows.rowCount - 1) / rows.rowCount;
  const steps = job.steps.map((step) => {
    if (step.id !== rows.stepId) return step;
    const { leastMin, likelyMin, mostMin } = step.work;
    return { ...step, work: { leastMin: leastMin * share, likelyMin: likelyMin * share, mostMin: mostMin * share } };
  });
  return [{ change: { change: 'rows', amount: 1, unit: 'row', name: rows.stepId }, job: { ...job, steps }, search }];
}

/** A second try goes faster: our figure, no source. */
const PRACTISED_RATIO = 0.75;

export function practised({ job, search }: Searched): Changed[] {
  const { ownPaceRatioOf } = search.settings;
  const settings: WindowSearch['settings'] = {
    ...search.settings,
    ownPaceRatioOf: (jobId, stepId) => ownPaceRatioOf(jobId, stepId) * PRACTISED_RATIO,
  };
  const amount = 100 * (1 - PRACTISED_RATIO);
  return [{ change: { change: 'practice', amount, unit: '%', name: null }, job, search: { ...search, settings } }];
}

const LEAST_CONTINGENCY_SHARE = 0.3;

/** Less reserve behind the planned end; not up the mast or over the side. */
export function lessContingency({ job, search }: Searched): Changed[] {
  if (hasExposed(job) || search.settings.contingencyShare <= LEAST_CONTINGENCY_SHARE) return [];
  const settings = { ...search.settings, contingencyShare: LEAST_CONTINGENCY_SHARE };
  const change = { change: 'contingency', amount: LEAST_CONTINGENCY_SHARE, unit: 'share', name: null } as const;
  return [{ change, job, search: { ...search, settings } }];
}

/** So many minutes worked in the dark after dusk, or before dawn; only where a step on deck asks for daylight. */
export function moreDaylight({ job, search }: Searched, lengthMin: number): Changed[] {
  const inLight = job.steps.filter((step) => step.limits.daylight === 'required');
  if (inLight.length === 0 || inLight.some(isExposed)) return [];
  const slots = Math.floor(lengthMin / search.conditions.course.grid.slotMin);
  if (slots === 0) return [];
  const conditions = { ...search.conditions, light: lengthened(search.conditions.light, slots) };
  return [
    {
      change: { change: 'daylight', amount: lengthMin, unit: 'min', name: null },
      job,
      search: { ...search, conditions },
    },
  ];
}

/** Index of civil twilight, the darkest light that daylight work may be done in. */
const CIVIL = 1;

function lengthened(light: Uint8Array, slots: number): Uint8Array {
  const isLight = (i: number): boolean => (light[i] ?? 3) <= CIVIL;
  return light.map((here, i) => {
    if (here <= CIVIL) return here;
    for (let by = 1; by <= slots; by++) if (isLight(i - by) || isLight(i + by)) return CIVIL;
    return here;
  });
}

/** No-go for mean wind and gust over the deck so much higher, for steps that are neither aloft nor overside. */
export function moreWind({ job, search }: Searched, moreKn: number): Changed[] {
  return loosened({ job, search }, { change: 'wind', amount: moreKn, unit: 'kn', name: null }, (limits) => ({
    ...limits,
    deckWindKn: limits.deckWindKn === null ? null : { ...limits.deckWindKn, noGo: limits.deckWindKn.noGo + moreKn },
    deckGustNoGoKn: limits.deckGustNoGoKn === null ? null : limits.deckGustNoGoKn + moreKn,
  }));
}

/** No-go for the height of the sea so much higher, for steps that are neither aloft nor overside. */
export function moreSea({ job, search }: Searched, moreM: number): Changed[] {
  return loosened({ job, search }, { change: 'sea', amount: moreM, unit: 'm', name: null }, (limits) => ({
    ...limits,
    seaHeightM: limits.seaHeightM === null ? null : { ...limits.seaHeightM, noGo: limits.seaHeightM.noGo + moreM },
  }));
}

function loosened(
  { job, search }: Searched,
  change: Change,
  loosen: (limits: Step['limits']) => Step['limits'],
): Changed[] {
  if (job.steps.every(isExposed)) return [];
  const steps = job.steps.map((step) => (isExposed(step) ? step : { ...step, limits: loosen(step.limits) }));
  return [{ change, job: { ...job, steps }, search }];
}

/** Less is more often outside limits than inside them. */
const LEAST_WANTED_PROBABILITY = 0.5;

/** Lower wanted probabilities in tenths, the highest first; not up the mast or over the side. */
export function lowerWanted({ job, search }: Searched): Changed[] {
  if (hasExposed(job)) return [];
  const changed: Changed[] = [];
  for (
    let tenths = Math.ceil(search.wantedProbability * 10 - 1e-9) - 1;
    tenths >= LEAST_WANTED_PROBABILITY * 10;
    tenths--
  ) {
    const change = { change: 'wanted-probability', amount: tenths / 10, unit: 'share', name: null } as const;
    changed.push({ change, job, search: { ...search, wantedProbability: tenths / 10 } });
  }
  return changed;
}
