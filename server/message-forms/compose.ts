import type { NumberedEntry } from '../../lib/log/index.ts';
import { digestRoomCount, type Message, partCountFor, planMessageOf, reportOf } from '../../lib/message/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { assertNever, failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { MS_PER_MIN } from '../../lib/time/index.ts';
import type { KeptMessage, MessageOf } from '../keep-messages.ts';
import type { AskedDigest, DigestAnswer } from '../planning-messages.ts';
import type { WriteAsked } from './write-form.ts';

/** What a message is made of. */
export interface Composing {
  readonly passage: Passage;
  /** The plan that is shown, of this passage; null: there is none. */
  readonly plan: Plan | null;
  readonly entries: readonly NumberedEntry[];
  /** Messages there are, in the order they were added. */
  readonly messages: readonly Pick<KeptMessage, 'direction' | 'kind' | 'madeAtEpochMs'>[];
  readonly nowEpochMs: number;
  readonly nextCounterNumber: number;
  readonly isSigned: boolean;
  readonly askDigest: (asked: AskedDigest) => Promise<Result<DigestAnswer>>;
}

export interface Composed {
  readonly message: Message;
  readonly of: Omit<MessageOf, 'limitCount'>;
}

/** Makes a message of the plan, the forecast or the log, as it stands now; or says why there is none. */
export async function composeMessage(asked: WriteAsked, from: Composing): Promise<Result<Composed>> {
  switch (asked.kind) {
    case 'plan':
      return planMessage(asked, from);
    case 'digest':
      return digestMessage(asked, from);
    case 'report':
      return reportMessage(asked, from);
    default:
      return assertNever(asked.kind);
  }
}

const NOTHING = { planNumber: null, aheadH: null, logNumber: null } as const;

function planMessage({ detail, note }: WriteAsked, { plan, passage }: Composing): Result<Composed> {
  if (plan === null) return failed(noPlan);
  const message = planMessageOf(plan, { detail, jobs: passage.jobs, note });
  return message.ok ? ok({ message: message.value, of: { ...NOTHING, planNumber: plan.planNumber } }) : message;
}

async function digestMessage(asked: WriteAsked, from: Composing): Promise<Result<Composed>> {
  const { sender, limitCount, aheadH, mostPartCount } = asked;
  const madeEpochMs = minuteOf(from.nowEpochMs);
  const counterNumber = asked.counterNumber ?? from.nextCounterNumber;
  const frame = { mark: { sender, counterNumber }, limitCount, isSigned: from.isSigned };
  const partCount = mostPartCount ?? partCountFor(aheadH, frame);
  const mostCharacterCount = digestRoomCount(frame, partCount);
  const answer = await from.askDigest({ nowEpochMs: madeEpochMs, aheadH, mostCharacterCount });
  if (!answer.ok) return { ok: false, problems: mapAll(answer.problems, (problem) => ofParts(problem, partCount)) };
  const message: Message = { kind: 'digest', madeEpochMs, digest: answer.value.digest };
  return ok({ message, of: { ...NOTHING, aheadH } });
}

/** At least a day is told, and all since the last report: what was not told would be lost. */
const REPORTED_MS = 24 * 60 * MS_PER_MIN;

function reportMessage({ note, observationCount }: WriteAsked, from: Composing): Result<Composed> {
  const { entries, nowEpochMs, messages } = from;
  if (entries.length === 0 && note === '') return failed(nothingLogged);
  const last = messages.findLast(({ direction, kind }) => direction === 'sent' && kind === 'report');
  const dayBeforeEpochMs = nowEpochMs - REPORTED_MS;
  const message = reportOf(entries, nowEpochMs, {
    sinceEpochMs: Math.min(dayBeforeEpochMs, last?.madeAtEpochMs ?? dayBeforeEpochMs),
    mostObservationsCount: observationCount,
    note,
  });
  if (!message.ok) return message;
  return ok({ message: message.value, of: { ...NOTHING, logNumber: entries.at(-1)?.number ?? null } });
}

const minuteOf = (epochMs: number): number => Math.floor(epochMs / MS_PER_MIN) * MS_PER_MIN;

const mapAll = (
  [first, ...rest]: readonly [Problem, ...Problem[]],
  change: (problem: Problem) => Problem,
): readonly [Problem, ...Problem[]] => [change(first), ...rest.map(change)];

/** The reader chose parts, not characters. */
const ofParts = (problem: Problem, partCount: number): Problem =>
  problem.code === 'message.digest-too-long'
    ? {
        ...problem,
        where: 'parts',
        what: `Its hours do not fit into ${partCount === 1 ? 'one part' : `${partCount} parts`} of that length.`,
      }
    : problem;

const noPlan: Problem = {
  code: 'message.no-plan',
  where: 'kind',
  what: 'There is no plan of this passage to send.',
  expected: 'a plan that has been made',
  remedy: 'Wait until it is there, or make it.',
};

const nothingLogged: Problem = {
  code: 'message.nothing-logged',
  where: 'kind',
  what: 'The log is empty: there is nothing to report.',
  expected: 'an entry in the log, or words in the note',
  remedy: 'Write down where she is and what was seen, or add a note.',
};
