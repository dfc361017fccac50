import type { StopNumbers } from '../../jobs/index.ts';
import { LIMIT_CODES, REASON_CODES } from '../plan/plan-codes.table.ts';
import type { PlanMessage, PlanMessageJob, PlanMessageLimit } from '../plan/plan-message.ts';
import { assertNever } from '../../result/index.ts';
import { MS_PER_MIN } from '../../time/index.ts';
import { lengthText, longTime, type MessageNames, named, ofHundred, shortTime, spanTime } from './amounts.ts';

/** A plan in plain words: every field of it, one sentence a line; times are UTC. */
export function planWords(message: PlanMessage, names: MessageNames): string[] {
  return [
    ...headWords(message),
    ...(message.jobs.length === 0
      ? ['No job is in this message.']
      : message.jobs.flatMap((job) => jobWords(job, names))),
    ...leftOutWords(message),
    ...sleepWords(message),
    ...(message.note === null ? [] : [`Note: ${message.note}`]),
    'Advice, not permission: the skipper looks, and decides. Cautions, steps and what to look at before a start are not in a message: they stand on the job sheet.',
  ];
}

function headWords(message: PlanMessage): string[] {
  const number = message.planNumber === null ? 'Plan without a number' : `Plan ${message.planNumber}`;
  const standing =
    message.standing === null
      ? []
      : [
          message.standing === 'kept'
            ? 'No change: the standing plan is kept.'
            : 'Changed: the standing plan is not kept.',
        ];
  return [
    `${number}, made ${longTime(message.madeEpochMs)}, from the forecast of ${longTime(message.forecastBaseEpochMs)}. All times are UTC.`,
    ...standing,
    message.validUntilEpochMs === null
      ? 'Until when it holds is not said.'
      : `After ${longTime(message.validUntilEpochMs)} it holds no longer: only conservative defaults.`,
    ...(message.nextForecastEpochMs === null ? [] : [`Next forecast: ${shortTime(message.nextForecastEpochMs)}.`]),
    ...totalWords(message),
  ];
}

function totalWords(message: PlanMessage): string[] {
  const { allDoneProbability, expectedDoneCount, deckH, lostNm, sleepHPer24H, unwatchedMin } = message;
  const amounts = [
    ...(expectedDoneCount === null ? [] : [`${expectedDoneCount.toFixed(1)} jobs done inside their limits on average`]),
    ...(deckH === null ? [] : [`${deckH.toFixed(1)} h on deck`]),
    ...(lostNm === null ? [] : [`${lostNm.toFixed(1)} nm lost`]),
    ...(sleepHPer24H === null ? [] : [`${sleepHPer24H.toFixed(1)} h of sleep in 24 h`]),
    ...(unwatchedMin === null ? [] : [`${lengthText(unwatchedMin * MS_PER_MIN)} without a look-out`]),
  ];
  return [
    allDoneProbability === null
      ? 'How sure all of it together is, is not said.'
      : `All planned jobs together stay inside their limits in ${ofHundred(allDoneProbability)}.`,
    ...(amounts.length === 0 ? [] : [`In all: ${amounts.join(', ')}.`]),
  ];
}

function jobWords(job: PlanMessageJob, names: MessageNames): string[] {
  const more = [
    ...(job.decideByEpochMs === null ? [] : [`Decide by ${shortTime(job.decideByEpochMs)}.`]),
    ...(job.startBetween === null
      ? []
      : [`A start is fair from ${spanTime(job.startBetween.firstEpochMs, job.startBetween.lastEpochMs)}.`]),
    ...fallbackWords(job, names),
    ...(job.stop === null ? [] : [stopWords(job.stop)]),
    ...(job.bindingLimit === null ? [] : [limitWords(job.bindingLimit)]),
    ...(job.unknownLimits.length === 0
      ? []
      : [`Not in the forecast, look yourself: ${job.unknownLimits.map((limit) => limitName(limit)).join(', ')}.`]),
    ...job.waits.map((wait) => `By itself, without you: ${spanTime(wait.startEpochMs, wait.endEpochMs)}.`),
    ...missWords(job, names),
  ];
  return [firstWords(job, names), ...more.map((line) => `  ${line}`)];
}

function firstWords(job: PlanMessageJob, names: MessageNames): string {
  const name = `Job ${named(job.jobId, names.jobs)}`;
  const chance = job.probability === null ? '' : `, inside its limits in ${ofHundred(job.probability)}`;
  const work = job.work.map(
    ({ startEpochMs, endEpochMs, handling }) =>
      `${spanTime(startEpochMs, endEpochMs)}${handling === null ? '' : ` under ${named(handling, names.handlings)}`}`,
  );
  const when = work.length === 0 ? 'no time is said' : work.join('; then ');
  switch (job.status) {
    case 'planned':
      return `${name}: ${when}${chance}.`;
    case 'conditional':
      return `${name}, only if what the forecast does not hold is good: ${when}${chance}.`;
    case 'unplanned':
      return work.length === 0 ? `${name}: not planned.` : `${name}: not planned; ${when}${chance}.`;
    case 'done':
      return work.length === 0 ? `${name}: done.` : `${name}: done; ${when}${chance}.`;
    default:
      return assertNever(job.status);
  }
}

function fallbackWords({ fallback }: PlanMessageJob, names: MessageNames): string[] {
  if (fallback === null) return [];
  const { startEpochMs, lastStartEpochMs, handling, probability } = fallback;
  const last =
    lastStartEpochMs === null || lastStartEpochMs === startEpochMs ? '' : `, last start ${shortTime(lastStartEpochMs)}`;
  return [
    `If not then: ${shortTime(startEpochMs)}${last}, under ${named(handling, names.handlings)}, ${ofHundred(probability)}.`,
  ];
}

function stopWords({ windKn, gustKn, seaM }: StopNumbers): string {
  const amounts = [
    ...(windKn === null ? [] : [`wind ${windKn} kn over the deck`]),
    ...(gustKn === null ? [] : [`gusts ${gustKn} kn over the deck`]),
    ...(seaM === null ? [] : [`sea ${seaM.toFixed(1)} m`]),
  ];
  return amounts.length === 0 ? 'It has no numbers to stop at.' : `Stop at ${amounts.join(', or ')}.`;
}

const limitOf = (limit: string): (typeof LIMIT_CODES)[number] | undefined =>
  LIMIT_CODES.find((of) => of.limit === limit);

const limitName = (limit: string): string => limitOf(limit)?.words ?? limit;

/** How light the worst slot is, as the planner counts it. */
const LIGHT_WORDS = ['day', 'civil twilight', 'nautical twilight', 'night'];

function limitWords({ limit, observed, required }: PlanMessageLimit): string {
  const of = limitOf(limit);
  if (of?.unit === 'light')
    return `What binds is daylight: ${LIGHT_WORDS[observed] ?? observed} at the worst moment, ${LIGHT_WORDS[required] ?? required} allowed.`;
  if (of?.unit === 'yes/no') return `What binds is ${limitName(limit)}.`;
  const digits = of?.stepsPerUnitCount === 1000 ? 3 : 1;
  const unit = of === undefined || of.unit === '' || of.unit === 'ratio' ? '' : ` ${of.unit}`;
  return `What binds is ${limitName(limit)}: ${observed.toFixed(digits)}${unit} expected at the worst moment, ${required.toFixed(digits)}${unit} is the limit.`;
}

function missWords({ miss }: PlanMessageJob, names: MessageNames): string[] {
  if (miss === null) return [];
  const reason = REASON_CODES.find((of) => of.reason === miss.reason)?.words ?? miss.reason;
  const handling = miss.handling === null ? '' : ` under ${named(miss.handling, names.handlings)}`;
  const chance = miss.probability === null ? '' : `, ${ofHundred(miss.probability)}`;
  const nearest =
    miss.startEpochMs === null
      ? handling === '' && chance === ''
        ? ''
        : ` Nearest${handling}${chance}.`
      : ` Nearest: ${shortTime(miss.startEpochMs)}${handling}${chance}.`;
  return [`Why not: ${reason}.${nearest}`];
}

function leftOutWords({ leftOutCount }: PlanMessage): string[] {
  if (leftOutCount === 0) return [];
  return [
    leftOutCount === 1
      ? '1 more job of the plan is not in this message.'
      : `${leftOutCount} more jobs of the plan are not in this message.`,
  ];
}

function sleepWords({ sleeps }: PlanMessage): string[] {
  if (sleeps === null) return ['Sleep is not said.'];
  if (sleeps.length === 0) return ['No sleep is planned.'];
  return [
    `Sleep: ${sleeps.map(({ startEpochMs, endEpochMs }) => spanTime(startEpochMs, endEpochMs)).join('; ')}.`,
    'No sleep plan of a lone sailor satisfies COLREG Rule 5 (look-out): set radar and AIS alarms before every sleep.',
  ];
}
