import { FIELD_SEPARATOR, ITEM_SEPARATOR } from '../text/separators.ts';
import type { StopNumbers } from '../../jobs/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import { formatId } from '../text/id-text.ts';
import { ItemTimesWriter } from '../text/item-times.ts';
import { formatNote } from '../text/note-text.ts';
import { formatPercent, formatScaled } from '../text/scaled.ts';
import { formatInstant } from '../text/times.ts';
import { HandlingLetters } from './handling-letters.ts';
import { LIMIT_CODES, REASON_CODES, STATUS_CODES } from './plan-codes.table.ts';
import type {
  PlanMessage,
  PlanMessageFallback,
  PlanMessageJob,
  PlanMessageLimit,
  PlanMessageMiss,
} from './plan-message.ts';

type Field = string | null;
const item = (fields: readonly Field[]): string => fields.filter((field) => field !== null).join(FIELD_SEPARATOR);

/** The body of a plan: items between slashes, fields between commas; `message key` prints what they mean. */
export function writePlanBody(message: PlanMessage): string {
  const letters = new HandlingLetters();
  const jobs = message.jobs.map((job) => jobItem(job, { letters, baseEpochMs: message.madeEpochMs }));
  return [
    headItem(message),
    ...(letters.ids.length === 0 ? [] : [`H${letters.ids.map(formatId).join(FIELD_SEPARATOR)}`]),
    ...jobs,
    ...(message.sleeps === null ? [] : [sleepItem(message)]),
    ...(message.note === null ? [] : [`T${formatNote(message.note)}`]),
  ].join(ITEM_SEPARATOR);
}

function headItem(message: PlanMessage): string {
  const at = (letter: string, epochMs: number | null): Field =>
    epochMs === null ? null : `${letter}${formatInstant(epochMs, message.madeEpochMs)}`;
  const tenths = (letter: string, value: number | null): Field =>
    value === null ? null : `${letter}${formatScaled(value, 10)}`;
  return item([
    `P${message.planNumber ?? ''}`,
    `F${ageOrBase(message)}`,
    at('V', message.validUntilEpochMs),
    at('N', message.nextForecastEpochMs),
    message.standing === null ? null : message.standing === 'kept' ? 'KS' : 'KC',
    message.allDoneProbability === null ? null : `A${formatPercent(message.allDoneProbability)}`,
    tenths('E', message.expectedDoneCount),
    tenths('D', message.deckH),
    tenths('G', message.lostNm),
    tenths('Q', message.sleepHPer24H),
    message.unwatchedMin === null ? null : `U${formatScaled(message.unwatchedMin, 1)}`,
    message.leftOutCount === 0 ? null : `M${message.leftOutCount}`,
  ]);
}

/** Whole hours before the plan was made, at most 99; else the instant. */
function ageOrBase({ madeEpochMs, forecastBaseEpochMs }: PlanMessage): string {
  const ageH = (madeEpochMs - forecastBaseEpochMs) / MS_PER_H;
  const isShort = Number.isInteger(ageH) && ageH >= 0 && ageH <= 99;
  return isShort ? String(ageH) : formatInstant(forecastBaseEpochMs, madeEpochMs);
}

interface JobWriting {
  readonly letters: HandlingLetters;
  readonly baseEpochMs: number;
}

function jobItem(job: PlanMessageJob, { letters, baseEpochMs }: JobWriting): string {
  const times = new ItemTimesWriter(baseEpochMs);
  const status = STATUS_CODES.find((of) => of.status === job.status);
  const { startBetween, fallback } = job;
  const percent = job.probability === null ? null : formatPercent(job.probability);
  // Behind the letter of the first handling it needs no field of its own.
  const isBeside = (job.work[0]?.handling ?? null) !== null;
  const work = job.work.map((of, index) => {
    const start = index === 0 ? times.whole(of.startEpochMs) : times.later(of.startEpochMs);
    const handling = of.handling === null ? '' : letters.letterOf(of.handling);
    return `${start}-${times.later(of.endEpochMs)}${handling}${index === 0 && isBeside ? (percent ?? '') : ''}`;
  });
  return item([
    `${status?.code ?? ''}${formatId(job.jobId)}`,
    ...work,
    percent === null || isBeside ? null : `P${percent}`,
    job.decideByEpochMs === null ? null : `B${times.whole(job.decideByEpochMs)}`,
    startBetween === null
      ? null
      : `O${times.span({ startEpochMs: startBetween.firstEpochMs, endEpochMs: startBetween.lastEpochMs })}`,
    fallback === null ? null : fallbackField(fallback, letters, times),
    job.stop === null ? null : stopField(job.stop),
    job.bindingLimit === null ? null : limitField(job.bindingLimit),
    job.unknownLimits.length === 0 ? null : `U${job.unknownLimits.map(limitCode).join('.')}`,
    ...job.waits.map((wait) => `W${times.span(wait)}`),
    job.miss === null ? null : missField(job.miss, letters, times),
  ]);
}

function fallbackField(fallback: PlanMessageFallback, letters: HandlingLetters, times: ItemTimesWriter): string {
  const start = times.whole(fallback.startEpochMs);
  const last = fallback.lastStartEpochMs === null ? '' : `-${times.later(fallback.lastStartEpochMs)}`;
  return `R${start}${last}${letters.letterOf(fallback.handling)}${formatPercent(fallback.probability)}`;
}

const limitCode = (limit: string): string => LIMIT_CODES.find((of) => of.limit === limit)?.code ?? 'XX';

function stopField({ windKn, gustKn, seaM }: StopNumbers): string {
  const of = (value: number | null, stepsPerUnitCount: number): string =>
    value === null ? 'X' : formatScaled(value, stepsPerUnitCount);
  return `S${of(windKn, 1)}.${of(gustKn, 1)}.${of(seaM, 10)}`;
}

function limitField({ limit, observed, required }: PlanMessageLimit): string {
  const steps = LIMIT_CODES.find((of) => of.limit === limit)?.stepsPerUnitCount ?? 10;
  return `L${limitCode(limit)}${formatScaled(observed, steps)}.${formatScaled(required, steps)}`;
}

function missField(miss: PlanMessageMiss, letters: HandlingLetters, times: ItemTimesWriter): string {
  const code = REASON_CODES.find(({ reason }) => reason === miss.reason)?.code ?? 'O';
  const start = miss.startEpochMs === null ? '' : times.whole(miss.startEpochMs);
  const handling = miss.handling === null ? '' : letters.letterOf(miss.handling);
  const probability = miss.probability === null ? '' : formatPercent(miss.probability);
  return `M${code}.${start}.${handling}.${probability}`.replace(/\.+$/, '');
}

function sleepItem({ sleeps, madeEpochMs }: PlanMessage): string {
  const times = new ItemTimesWriter(madeEpochMs);
  const spans = (sleeps ?? []).map(
    (of, index) =>
      `${index === 0 ? times.whole(of.startEpochMs) : times.later(of.startEpochMs)}-${times.later(of.endEpochMs)}`,
  );
  return `Z${spans.join(FIELD_SEPARATOR)}`;
}
