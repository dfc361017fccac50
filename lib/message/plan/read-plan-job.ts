import type { StopNumbers } from '../../jobs/index.ts';
import { parseId } from '../text/id-text.ts';
import { ItemTimesReader } from '../text/item-times.ts';
import { parsePercent, parseScaled } from '../text/scaled.ts';
import { handlingIndex } from './handling-letters.ts';
import { LIMIT_CODES, REASON_CODES, STATUS_CODES } from './plan-codes.table.ts';
import type {
  PlanMessageFallback,
  PlanMessageJob,
  PlanMessageLimit,
  PlanMessageMiss,
  Span,
  WorkSpan,
} from './plan-message.ts';
import { FIELD_SEPARATOR } from '../text/separators.ts';

interface JobReading {
  /** Handlings of the message, in the order of their letters. */
  readonly handlings: readonly string[];
  readonly baseEpochMs: number;
}

interface Reading {
  readonly times: ItemTimesReader;
  readonly handlings: readonly string[];
}

type Draft = { -readonly [K in keyof PlanMessageJob]: PlanMessageJob[K] } & { work: WorkSpan[]; waits: Span[] };

/** A job of a plan's body; null: some field of it is not known, or stands twice. */
export function readJobItem(text: string, { handlings, baseEpochMs }: JobReading): PlanMessageJob | null {
  const [first = '', ...fields] = text.split(FIELD_SEPARATOR);
  const status = STATUS_CODES.find(({ code }) => code === first.charAt(0))?.status;
  const jobId = parseId(first.slice(1));
  if (status === undefined || jobId === null) return null;
  const draft: Draft = {
    jobId,
    status,
    work: [],
    waits: [],
    probability: null,
    decideByEpochMs: null,
    startBetween: null,
    fallback: null,
    bindingLimit: null,
    stop: null,
    unknownLimits: [],
    miss: null,
  };
  const reading = { times: new ItemTimesReader(baseEpochMs), handlings };
  const seen = new Set<string>();
  for (const field of fields) {
    const letter = field.charAt(0);
    if (seen.has(letter) || !readField(field, draft, reading)) return null;
    if (!/[\dW]/.test(letter)) seen.add(letter);
  }
  return draft;
}

/** Puts a field into the draft; false: it cannot be read. */
function readField(field: string, draft: Draft, reading: Reading): boolean {
  const { times } = reading;
  const rest = field.slice(1);
  switch (field.charAt(0)) {
    case 'P':
      return draft.probability === null && (draft.probability = parsePercent(rest)) !== null;
    case 'B':
      return (draft.decideByEpochMs = times.read(rest)) !== null;
    case 'O': {
      const span = times.span(rest);
      draft.startBetween = span === null ? null : { firstEpochMs: span.startEpochMs, lastEpochMs: span.endEpochMs };
      return span !== null;
    }
    case 'R':
      return (draft.fallback = readFallback(rest, reading)) !== null;
    case 'S':
      return (draft.stop = readStop(rest)) !== null;
    case 'L':
      return (draft.bindingLimit = readLimit(rest)) !== null;
    case 'U': {
      const limits = rest.split('.').map((code) => LIMIT_CODES.find((of) => of.code === code)?.limit);
      draft.unknownLimits = limits.filter((limit) => limit !== undefined);
      return draft.unknownLimits.length === limits.length;
    }
    case 'W': {
      const span = times.span(rest);
      if (span !== null) draft.waits.push(span);
      return span !== null;
    }
    case 'M':
      return (draft.miss = readMiss(rest, reading)) !== null;
    default:
      return readWork(field, draft, reading);
  }
}

function readWork(field: string, draft: Draft, { times, handlings }: Reading): boolean {
  const match = /^(\d+-\d+)(?:([A-Z]+)(\d{1,3})?)?$/.exec(field);
  const span = match === null ? null : times.span(match[1] ?? '');
  const handling = handlingOf(match?.[2] ?? '', handlings);
  if (span === null || handling === undefined) return false;
  const percent = match?.[3];
  if (percent !== undefined) {
    const isFirst = draft.work.length === 0 && draft.probability === null;
    draft.probability = parsePercent(percent);
    if (!isFirst || draft.probability === null) return false;
  }
  draft.work.push({ ...span, handling });
  return true;
}

/** Null: no letters; undefined: letters of no handling. */
const handlingOf = (letters: string, handlings: readonly string[]): string | null | undefined =>
  letters === '' ? null : handlings[handlingIndex(letters)];

function readFallback(text: string, { times, handlings }: Reading): PlanMessageFallback | null {
  const match = /^(\d+)(?:-(\d+))?([A-Z]+)(\d+)$/.exec(text);
  if (match === null) return null;
  const [, start = '', last, letters = '', percent = ''] = match;
  const startEpochMs = times.read(start);
  const lastStartEpochMs = last === undefined ? null : times.read(last);
  const handling = handlingOf(letters, handlings) ?? null;
  const probability = parsePercent(percent);
  const isRead = last === undefined || lastStartEpochMs !== null;
  if (startEpochMs === null || !isRead || handling === null || probability === null) return null;
  return { startEpochMs, lastStartEpochMs, handling, probability };
}

function readStop(text: string): StopNumbers | null {
  const [wind, gust, sea, ...more] = text.split('.');
  if (wind === undefined || gust === undefined || sea === undefined || more.length > 0) return null;
  const windKn = wind === 'X' ? null : parseScaled(wind, 1);
  const gustKn = gust === 'X' ? null : parseScaled(gust, 1);
  const seaM = sea === 'X' ? null : parseScaled(sea, 10);
  const isRead = (value: number | null, of: string): boolean => value !== null || of === 'X';
  return isRead(windKn, wind) && isRead(gustKn, gust) && isRead(seaM, sea) ? { windKn, gustKn, seaM } : null;
}

function readLimit(text: string): PlanMessageLimit | null {
  const of = LIMIT_CODES.find(({ code }) => code === text.slice(0, 2));
  const [observedText = '', requiredText = '', ...more] = text.slice(2).split('.');
  if (of === undefined || more.length > 0) return null;
  const observed = parseScaled(observedText, of.stepsPerUnitCount);
  const required = parseScaled(requiredText, of.stepsPerUnitCount);
  return observed === null || required === null ? null : { limit: of.limit, observed, required };
}

function readMiss(text: string, { times, handlings }: Reading): PlanMessageMiss | null {
  const [code = '', start = '', letters = '', percent = '', ...more] = text.split('.');
  const reason = REASON_CODES.find((of) => of.code === code)?.reason;
  const startEpochMs = start === '' ? null : times.read(start);
  const handling = handlingOf(letters, handlings);
  const probability = percent === '' ? null : parsePercent(percent);
  const isRead =
    more.length === 0 && (startEpochMs !== null || start === '') && (probability !== null || percent === '');
  return reason === undefined || handling === undefined || !isRead
    ? null
    : { reason, startEpochMs, handling, probability };
}
