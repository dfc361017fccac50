import { z } from 'zod';
import { type Message, readMessages } from '../lib/message/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import type { StoredMessage } from './stores/index.ts';

const messageOf = z.object({
  /** Most characters of a part; null: it came from elsewhere. */
  limitCount: z.number().nullable(),
  planNumber: z.number().nullable(),
  aheadH: z.number().nullable(),
  /** Last entry of the log it was made of. */
  logNumber: z.number().nullable(),
});

/** What a message was made of; null: nothing of the sort. */
export type MessageOf = z.infer<typeof messageOf>;

export const keptSchema = z.object({
  kind: z.enum(['plan', 'digest', 'report']),
  signature: z.enum(['signed', 'verified', 'signed-not-verified', 'unsigned']),
});

/** A message of the store. */
export interface KeptMessage
  extends Omit<StoredMessage, 'kind' | 'signature' | 'ofJson' | 'formToken'>, z.infer<typeof keptSchema> {
  readonly of: MessageOf;
  readonly message: Message;
}

/** A row of the store read; `message.unknown-shape` where it is none this version knows. */
export function keptOf({ kind, signature, ofJson, formToken: _form, ...row }: StoredMessage): Result<KeptMessage> {
  const of = messageOf.safeParse(JSON.parse(ofJson));
  const is = keptSchema.safeParse({ kind, signature });
  const [read] = readMessages(row.text, { where: `message ${row.number}`, keyOctets: null }).read;
  if (!of.success || !is.success || read === undefined) return failed(unknownShape(row));
  return ok({ ...row, ...is.data, of: of.data, message: read.message });
}

const unknownShape = ({ passageNumber, number }: Pick<StoredMessage, 'passageNumber' | 'number'>): Problem => ({
  code: 'message.unknown-shape',
  where: `passage ${passageNumber}, message ${number}`,
  what: 'It is not a message this version of the program knows.',
  expected: 'a message written by this version or an earlier one',
  remedy: 'Start the version that wrote it; the message stays as it is.',
});
