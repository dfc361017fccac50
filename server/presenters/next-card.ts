import type { JobPicture, Plan, PlannedJob, PlanPicture } from '../../lib/planner/index.ts';
import { aboutText, of100, plusMinus } from './amount-texts.ts';
import type { Fact } from './fact.ts';
import { handlingText } from './handling-text.ts';
import { rehearsedFacts } from './job-chances.ts';
import { sheetHref } from './job-page.ts';
import { joined, limitName, roomTexts } from './limit-texts.ts';
import { SHORT_LOOKOUT_TEXT } from './lookout-text.ts';
import { startWarning } from './start-check.ts';
import { durationText, epochOf, type TimeTexts } from './time-texts.ts';

/** The card that must be read in eight seconds. */
export interface NextCard {
  readonly label: string;
  /** Link back to the next job; null where this is it. */
  readonly backHref: string | null;
  readonly what: string;
  /** Said before everything else: conditional, not planned, done. */
  readonly standing: string | null;
  readonly when: string | null;
  readonly whenUtc: string | null;
  readonly startBetween: string | null;
  /** What comes before it: sleep. */
  readonly before: string | null;
  /** What must be said wherever sleep is planned; null: the card tells of none. */
  readonly lookout: string | null;
  readonly facts: readonly Fact[];
  readonly why: readonly string[];
  /** What stands against earlier starts; null: nothing was found, or it is not planned. */
  readonly whyNotEarlier: string | null;
  /** What the start check will probably say, where it is not simply “go”; null: it is. */
  readonly startWarning: string | null;
  readonly checks: readonly string[];
  readonly ifNot: string | null;
  /** The plan that is left when its window passes unused. */
  readonly planLeft: string | null;
  readonly decideBy: string | null;
  /** Figures that can wait until the rest is read. */
  readonly moreFacts: readonly Fact[];
  readonly sheetHref: string;
  readonly windowsHref: string;
}

export interface CardInput {
  readonly plan: Plan;
  readonly picture: PlanPicture;
  readonly job: PlannedJob;
  readonly isNext: boolean;
  readonly times: TimeTexts;
}

export function nextCard(input: CardInput): NextCard {
  const { job, times, isNext } = input;
  const startEpochMs = job.startUtc === null ? null : epochOf(job.startUtc);
  const before = isNext ? sleepBefore(input) : null;
  return {
    label: cardLabel(input),
    backHref: isNext ? null : '/',
    what: job.name,
    standing: standingText(job),
    when: startEpochMs === null ? null : times.full(startEpochMs),
    whenUtc: startEpochMs === null ? null : times.utc(startEpochMs),
    startBetween: job.startBetween === null ? null : startBetweenText(job.startBetween, times),
    before,
    lookout: before === null && job.sleepFirst === null ? null : SHORT_LOOKOUT_TEXT,
    facts: facts(input),
    why: whySentences(job),
    whyNotEarlier: job.startUtc === null ? null : job.whyNotEarlier,
    startWarning: startWarning(job, times),
    checks: [...new Set(job.goCheck)],
    ifNot: fallbackText(job, input.picture, times),
    planLeft: job.fallbackPlan?.text ?? null,
    decideBy: job.decideByUtc === null ? null : decideByText(job.decideByUtc, times),
    moreFacts: moreFacts(input),
    sheetHref: sheetHref(job.jobId),
    windowsHref: `/windows?job=${encodeURIComponent(job.jobId)}`,
  };
}

function cardLabel({ job, isNext }: CardInput): string {
  if (!isNext) return 'Chosen job';
  return job.status === 'unplanned' ? 'Nothing can be planned yet' : 'Next';
}

/** What is not simply planned is said in words. */
export function standingText(job: PlannedJob): string | null {
  if (job.status === 'done') return 'Done.';
  if (job.status === 'unplanned') return `Not planned: ${againstText(job)}.`;
  if (job.status !== 'conditional') return null;
  return `Conditional: ${joined(job.unknownLimits.map(limitName))} unknown. The figures count the known limits only.`;
}

/** What stands against a job, by the reason of its nearest miss. */
const against: Readonly<Record<string, string>> = {
  weather: 'no start keeps it inside its limits',
  light: 'no daylight is long enough for it',
  alertness: 'you would be too tired at every start that the weather allows',
  materials: 'material is missing',
  precedence: 'a job that must come first is not planned',
  'sail-state': 'the sail it needs is not set, or the sail that must be down is',
  horizon: 'it does not fit before the forecast ends',
  orders: 'what is fixed about it leaves no start its limits allow',
  joint: 'it fits by itself, but not beside the other jobs',
};

const againstText = ({ nearestMiss }: PlannedJob): string =>
  nearestMiss === null ? 'no start was found' : (against[nearestMiss.reason] ?? nearestMiss.reason);

export const startBetweenText = (between: { firstUtc: string; lastUtc: string }, times: TimeTexts): string =>
  `start between ${times.span({ fromEpochMs: epochOf(between.firstUtc), toEpochMs: epochOf(between.lastUtc) }, 'and')}`;

export const decideByText = (decideByUtc: string, times: TimeTexts): string =>
  `${times.dayTime(epochOf(decideByUtc))} (${times.utc(epochOf(decideByUtc))})`;

const LISTED_SLEEPS = 3;

function sleepBefore({ plan, picture, job, times }: CardInput): string | null {
  if (job.startUtc === null) return null;
  const untilEpochMs = epochOf(job.startUtc);
  const sleeps = plan.entries.filter(
    (entry) =>
      entry.kind === 'sleep' && epochOf(entry.startUtc) < untilEpochMs && epochOf(entry.endUtc) > picture.nowEpochMs,
  );
  if (sleeps.length === 0) return null;
  const spans = sleeps
    .slice(0, LISTED_SLEEPS)
    .map((entry) => times.span({ fromEpochMs: epochOf(entry.startUtc), toEpochMs: epochOf(entry.endUtc) }, 'to'));
  const moreCount = sleeps.length - spans.length;
  return `Sleep first: ${joined(moreCount > 0 ? [...spans, `${moreCount} more`] : spans)}.`;
}

function facts(input: CardInput): Fact[] {
  const { job, picture } = input;
  const own = picture.jobs.find((shown) => shown.jobId === job.jobId);
  if (job.startUtc === null || own === undefined) return missFacts(input);
  return [...chanceFact(input, own), ...roomFact(input), ...takesFact(input, own)];
}

function moreFacts(input: CardInput): Fact[] {
  const own = input.picture.jobs.find((shown) => shown.jobId === input.job.jobId);
  return input.job.startUtc === null || own === undefined ? [] : costFact(input, own);
}

function chanceFact({ job, picture }: CardInput, own: JobPicture): Fact[] {
  if (job.probability === null) return [];
  const isShort = job.probability < picture.wantedProbability;
  const wanted = isShort ? [`less than the ${of100(picture.wantedProbability)} you want`] : [];
  const rest = `of 100 ${plusMinus(own.probabilitySd)}`.trim();
  const below = [...wanted, ...rehearsedLine(job)].join('; ');
  const line = below === '' ? {} : { below };
  return [{ term: 'Stays inside limits', figure: String(of100(job.probability)), rest, ...line }];
}

/** With work times that vary: beside the first figure, never instead. */
const rehearsedLine = (job: PlannedJob): string[] =>
  rehearsedFacts(job).map(({ figure, rest, below }) => `done inside them ${figure} ${rest} ${below ?? ''}`.trim());

function roomFact({ job, times }: CardInput): Fact[] {
  if (job.bindingLimit === null) return [{ term: 'Room to the limit', figure: 'no limit near', rest: '' }];
  const { room, binds, measured } = roomTexts(job.bindingLimit, times);
  return [{ term: 'Room to the limit', figure: room, rest: 'to spare', below: `${binds}: ${measured}` }];
}

function takesFact({ plan, job }: CardInput, own: JobPicture): Fact[] {
  if (own.plannedMin === null) return [];
  const partCount = plan.entries.filter((entry) => entry.kind === 'work' && entry.jobId === job.jobId).length;
  const parts = partCount > 1 ? `in ${partCount} parts` : '';
  const first = partCount > 1 ? ' for the first' : '';
  const held =
    own.referenceMin === null ? {} : { below: `weather must hold ${durationText(own.referenceMin)}${first}` };
  return [{ term: 'Takes', figure: durationText(own.plannedMin), rest: parts, ...held }];
}

function costFact({ job, picture }: CardInput, own: JobPicture): Fact[] {
  if (own.lostNm === null) return [];
  return [{ term: 'Costs', figure: aboutText(own.lostNm, 'nm'), rest: handlingText(picture, job.handling ?? '') }];
}

function missFacts({ job, times }: CardInput): Fact[] {
  const miss = job.nearestMiss;
  if (miss === null) return [];
  const nearest: Fact[] =
    miss.startUtc === null ? [] : [{ term: 'Nearest', figure: times.full(epochOf(miss.startUtc)), rest: '' }];
  if (miss.bindingLimit === null) return nearest;
  const { room, binds, measured } = roomTexts(miss.bindingLimit, times);
  const term = miss.bindingLimit.margin < 0 ? 'Beyond the limit' : 'Room to the limit';
  return [...nearest, { term, figure: room, rest: binds, below: measured }];
}

function whySentences(job: PlannedJob): string[] {
  const sleepFirst = job.sleepFirst?.text ?? null;
  const rest =
    job.nearestMiss !== null && job.startUtc === null
      ? [job.nearestMiss.text, `What would help: ${job.nearestMiss.wouldHelp}`]
      : [job.why];
  return [sleepFirst, ...rest].filter((sentence) => sentence !== null);
}

/** When to try instead; null: the job is not planned at all. */
export function fallbackText(job: PlannedJob, picture: PlanPicture, times: TimeTexts): string | null {
  if (job.startUtc === null) return null;
  if (job.fallback === null) return 'no second window in this forecast. Leave it, and plan again with the next one.';
  const { startUtc, lastStartUtc, probability, handling } = job.fallback;
  const span = times.span({ fromEpochMs: epochOf(startUtc), toEpochMs: epochOf(lastStartUtc) }, 'to');
  return `start ${span}, ${handlingText(picture, handling)}: ${of100(probability)} of 100.`;
}
