/** Messages as text: written, taken out of what stood around them, and held against those taken before. */
import {
  counterName,
  findParts,
  formatPart,
  type Message,
  type MessageId,
  type ReadMessage,
  readMessages,
  type SeenCounters,
  type SenderMark,
  writeMessage,
} from '../lib/message/index.ts';
import { ok, type Result } from '../lib/result/index.ts';
import { keptSchema } from './kept-message.ts';
import type { LastReceived, SealedMessage } from './stores/messages.ts';

/** The parts of a new message, and what it is once it is read again: what cannot be read is our own mistake. */
export function sealed(
  message: Message,
  mark: SenderMark,
  settings: { readonly limitCount: number; readonly keyOctets: Uint8Array | null },
): Result<SealedMessage> {
  const parts = writeMessage(message, mark, settings);
  if (!parts.ok) return parts;
  const text = parts.value.join('\n');
  const [read] = readMessages(text, { where: 'message', keyOctets: settings.keyOctets }).read;
  if (read === undefined) throw new Error('a message that was written could not be read');
  const signature = settings.keyOctets === null ? 'unsigned' : 'signed';
  return ok({ text, fingerprint: read.fingerprint, signature });
}

/**
 * Counters a message is held against. With a key, one that is not verified must not use up those of messages that are:
 * anybody can write a high number.
 */
export function seenOf(last: readonly LastReceived[], message: ReadMessage): SeenCounters {
  const isVerified = message.signature === 'verified';
  const seen: Record<string, { counterNumber: number; fingerprint: string }> = {};
  for (const { kind, sender, counterNumber, fingerprint, signature } of last) {
    const known = keptSchema.shape.kind.safeParse(kind);
    if (!known.success || (isVerified && signature !== 'verified')) continue;
    const name = counterName({ kind: known.data, sender });
    if ((seen[name]?.counterNumber ?? 0) < counterNumber) seen[name] = { counterNumber, fingerprint };
  }
  return seen;
}

/** The parts of one message among those of a text, in order, each once. */
export function partsOf(
  text: string,
  { kind, sender, counterNumber, partCount }: MessageId & { partCount: number },
): string {
  const own = findParts(text, 'the text').parts.filter(
    (part) =>
      part.kind === kind &&
      part.sender === sender &&
      part.counterNumber === counterNumber &&
      part.partCount === partCount,
  );
  const byNumber = new Map(own.map((part) => [part.partNumber, formatPart(part)]));
  return [...byNumber.entries()]
    .toSorted(([one], [other]) => one - other)
    .map(([, part]) => part)
    .join('\n');
}

/** A digest as the forecast file it is kept as: always the same octets for the same message. */
export const digestFileText = (text: string): string => `${text}\n`;
