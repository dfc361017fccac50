import { assertNever, ok, type Problem, type Result } from '../result/index.ts';
import { type Digest, readDigestBody, writeDigestBody } from './digest/index.ts';
import type { DamagedPart } from './frames/part.ts';
import { joinFrames, type ReadSettings, type UnreadMessage, type WholeMessage } from './frames/join-frames.ts';
import { type FrameSettings, writeFrames } from './frames/write-frames.ts';
import type { PlanMessage } from './plan/plan-message.ts';
import { readPlanBody } from './plan/read-plan.ts';
import { writePlanBody } from './plan/write-plan.ts';
import { readReportBody } from './report/read-report.ts';
import type { ReportMessage } from './report/report-message.ts';
import { writeReportBody } from './report/write-report.ts';

/** The weather along the way. */
export interface DigestMessage {
  readonly kind: 'digest';
  /** When it was made: base time of the message. */
  readonly madeEpochMs: number;
  readonly digest: Digest;
}

export type Message = PlanMessage | ReportMessage | DigestMessage;

/** Who sends it, and as which of the kind. */
export interface SenderMark {
  /** 1 to 4 capital letters and digits. */
  readonly sender: string;
  /** 1 to 999 999, rising with every message of the kind. */
  readonly counterNumber: number;
}

/**
 * A message as the parts to be sent, in order.
 *
 * @returns the parts, or the problems of `writeFrames`
 */
export function writeMessage(message: Message, mark: SenderMark, settings: FrameSettings): Result<readonly string[]> {
  const { kind, madeEpochMs: baseEpochMs } = message;
  return writeFrames({ ...mark, kind, baseEpochMs, body: bodyOf(message) }, settings);
}

/** The body alone, before it is framed. */
function bodyOf(message: Message): string {
  switch (message.kind) {
    case 'plan':
      return writePlanBody(message);
    case 'report':
      return writeReportBody(message);
    case 'digest':
      return writeDigestBody(message.digest);
    default:
      return assertNever(message);
  }
}

/** A message read: whole, checked, and understood. */
export interface ReadMessage extends WholeMessage {
  readonly message: Message;
}

export interface ReadMessages {
  readonly read: readonly ReadMessage[];
  /** Of these nothing is to be used. */
  readonly unread: readonly UnreadMessage[];
  readonly damaged: readonly DamagedPart[];
}

/** All messages in a text: those that are whole, those that are not, and parts that cannot be read, each with the reason. */
export function readMessages(text: string, settings: ReadSettings): ReadMessages {
  const joined = joinFrames(text, settings);
  const opened = joined.whole.map((whole) => ({ whole, message: messageOf(whole, settings.where) }));
  return {
    read: opened.flatMap(({ whole, message }) => (message.ok ? [{ ...whole, message: message.value }] : [])),
    unread: [
      ...joined.unread,
      ...opened.flatMap(({ whole, message }) => (message.ok ? [] : [notUnderstood(whole, message.problems)])),
    ],
    damaged: joined.damaged,
  };
}

const notUnderstood = (whole: WholeMessage, problems: readonly [Problem, ...Problem[]]): UnreadMessage => ({
  kind: whole.kind,
  sender: whole.sender,
  counterNumber: whole.counterNumber,
  partCount: whole.partCount,
  missingNumbers: [],
  problems,
});

function messageOf(whole: WholeMessage, where: string): Result<Message> {
  const of = { baseEpochMs: whole.baseEpochMs, where };
  switch (whole.kind) {
    case 'plan':
      return readPlanBody(whole.body, of);
    case 'report':
      return readReportBody(whole.body, of);
    case 'digest': {
      const digest = readDigestBody(whole.body, where);
      return digest.ok ? ok({ kind: 'digest', madeEpochMs: whole.baseEpochMs, digest: digest.value }) : digest;
    }
    default:
      return assertNever(whole.kind);
  }
}
