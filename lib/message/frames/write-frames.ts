import { ok, okUnless, type Problem, type Result } from '../../result/index.ts';
import { BASE_TIME_LENGTH_COUNT, formatBaseTime, isBaseTime } from './base-time.ts';
import { BODY_MARKS, firstForeign, SEAL_SEPARATOR } from './characters.ts';
import { formatPart, type MessageId, MOST_COUNTER_NUMBER, MOST_PART_COUNT, overheadCount } from './part.ts';
import { type Envelope, HASH_LENGTH_COUNT, LEAST_KEY_OCTETS_COUNT, MAC_LENGTH_COUNT, sealed } from './seal.ts';

/** Longest parts: a short message of the mobile networks [septets], a burst of a satellite link [octets]. */
export const PART_LIMITS = { sms: 160, satellite: 270 } as const;
/** Below this nothing sensible fits beside head and check; ours. */
export const LEAST_LIMIT_COUNT = 80;

/** How a message is cut and sealed. */
export interface FrameSettings {
  /** Most characters of a part: each is one septet and one octet. At least 80. */
  readonly limitCount: number;
  /** At least 16 octets; null: no key, nobody can tell who wrote it. */
  readonly keyOctets: Uint8Array | null;
}

/**
 * A message as parts, each no longer than the limit.
 *
 * @returns the parts in order, or all of `message.sender`, `message.counter`, `message.base-time`, `message.character`,
 *   `message.limit`, `message.key-short`, `message.too-many-parts`
 */
export function writeFrames(envelope: Envelope, settings: FrameSettings): Result<readonly string[]> {
  const problems = [...envelopeProblems(envelope), ...settingProblems(settings)];
  const [first, ...rest] = problems;
  if (first !== undefined) return { ok: false, problems: [first, ...rest] };
  const content = `${formatBaseTime(envelope.baseEpochMs)}${envelope.body}`;
  const text = sealed(envelope, content, settings.keyOctets);
  const partCount = partCountOf(envelope, text.length, settings.limitCount);
  if (partCount === null)
    return okUnless(
      [
        problem('too-many-parts', `The message is too long: ${text.length} characters.`, {
          expected: `at most ${MOST_PART_COUNT} parts`,
          remedy: 'Send less of it, or longer parts.',
        }),
      ],
      () => [],
    );
  return ok(cut(envelope, { text, partCount, limitCount: settings.limitCount }));
}

interface Cutting {
  readonly text: string;
  readonly partCount: number;
  readonly limitCount: number;
}

function cut(envelope: Envelope, { text, partCount, limitCount }: Cutting): string[] {
  const { kind, sender, counterNumber } = envelope;
  const parts: string[] = [];
  let from = 0;
  for (let partNumber = 1; partNumber <= partCount; partNumber++) {
    const head = { kind, sender, counterNumber, partNumber, partCount };
    const piece = text.slice(from, from + limitCount - overheadCount(head));
    from += piece.length;
    parts.push(formatPart({ ...head, piece }));
  }
  return parts;
}

/** The fewest parts that hold so many characters; null: more than there are numbers for. */
function partCountOf(
  { kind, sender, counterNumber }: Envelope,
  lengthCount: number,
  limitCount: number,
): number | null {
  // Heads grow by a character at 10 and at 100 parts.
  for (const [digitCount, most] of [9, 99, MOST_PART_COUNT].entries()) {
    const rooms = [1, 10, 100].map(
      (partNumber) => limitCount - overheadCount({ kind, sender, counterNumber, partNumber, partCount: most }),
    );
    for (let [partCount, room] = [1, 0]; partCount <= most; partCount++) {
      room += rooms[String(partCount).length - 1] ?? 0;
      if (room >= lengthCount && partCount >= 10 ** digitCount) return partCount;
    }
  }
  return null;
}

/**
 * Characters of a body that fit so many parts; below nought where not even the seal fits.
 *
 * @param partCount 1 to 999
 */
export function bodyRoomCount(
  id: MessageId,
  of: { readonly limitCount: number; readonly partCount: number; readonly isSigned: boolean },
): number {
  let room = 0;
  for (let partNumber = 1; partNumber <= of.partCount; partNumber++)
    room += of.limitCount - overheadCount({ ...id, partNumber, partCount: of.partCount });
  const sealCount = SEAL_SEPARATOR.length + HASH_LENGTH_COUNT + (of.isSigned ? MAC_LENGTH_COUNT : 0);
  return room - BASE_TIME_LENGTH_COUNT - sealCount;
}

function problem(code: string, what: string, how: Pick<Problem, 'expected' | 'remedy'>): Problem {
  return { code: `message.${code}`, where: 'message', what, ...how };
}

function envelopeProblems({ sender, counterNumber, baseEpochMs, body }: Envelope): Problem[] {
  const foreign = firstForeign(body);
  return [
    ...(/^[A-Z0-9]{1,4}$/.test(sender)
      ? []
      : [
          problem('sender', `"${sender}" is no sender.`, {
            expected: '1 to 4 capital letters and digits, such as LW',
            remedy: 'Shorten it.',
          }),
        ]),
    ...(Number.isInteger(counterNumber) && counterNumber >= 1 && counterNumber <= MOST_COUNTER_NUMBER
      ? []
      : [
          problem('counter', `${counterNumber} is no counter of messages.`, {
            expected: `a whole number from 1 to ${MOST_COUNTER_NUMBER}`,
            remedy: 'Take one more than that of the last message of this kind.',
          }),
        ]),
    ...(isBaseTime(baseEpochMs)
      ? []
      : [
          problem('base-time', 'The base time cannot be sent.', {
            expected: 'a whole minute in the years 2000 to 2099',
            remedy: 'Correct the time the message is made at.',
          }),
        ]),
    ...(foreign === null
      ? []
      : [
          problem('character', `"${foreign}" cannot be sent.`, {
            expected: `letters A to Z, digits and ${BODY_MARKS}`,
            remedy: 'Take it out.',
          }),
        ]),
  ];
}

function settingProblems({ limitCount, keyOctets }: FrameSettings): Problem[] {
  return [
    ...(Number.isInteger(limitCount) && limitCount >= LEAST_LIMIT_COUNT
      ? []
      : [
          problem('limit', `Parts of ${limitCount} characters cannot be made.`, {
            expected: `a whole number of at least ${LEAST_LIMIT_COUNT}`,
            remedy: 'Give a longer part.',
          }),
        ]),
    ...(keyOctets === null || keyOctets.length >= LEAST_KEY_OCTETS_COUNT ? [] : [keyShort(keyOctets.length)]),
  ];
}

/** The problem of a key of too few octets. */
export const keyShort = (octetCount: number): Problem =>
  problem('key-short', `The key has ${octetCount} octets.`, {
    expected: `at least ${LEAST_KEY_OCTETS_COUNT} octets that nobody can guess`,
    remedy: 'Make a longer one, of letters and digits drawn at random, and give it to the other side by hand.',
  });
