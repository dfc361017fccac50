import type { Problem } from '../../result/index.ts';
import { BASE_TIME_LENGTH_COUNT, parseBaseTime } from './base-time.ts';
import { SEAL_SEPARATOR } from './characters.ts';
import { type FoundParts, findParts } from './find-parts.ts';
import { type DamagedPart, type MessageId, messageName, type Part, partName } from './part.ts';
import {
  type Envelope,
  fingerprintOf,
  HASH_LENGTH_COUNT,
  hashOf,
  isSameSecretly,
  LEAST_KEY_OCTETS_COUNT,
  MAC_LENGTH_COUNT,
  macOf,
} from './seal.ts';
import { keyShort } from './write-frames.ts';

/** How messages are read. */
export interface ReadSettings {
  /** Named in problems. */
  readonly where: string;
  /** The key both sides share; null: whoever wrote it, nothing is verified. */
  readonly keyOctets: Uint8Array | null;
  /** With a key: take a message that was written without one too. */
  readonly takesUnsigned?: boolean;
}

/** A message of which all parts are there and fit. */
export interface WholeMessage extends Envelope {
  /** `verified`: written by someone who has the key. */
  readonly signature: 'verified' | 'signed-not-verified' | 'unsigned';
  /** What tells it from another of the same counter. */
  readonly fingerprint: string;
  readonly partCount: number;
  /** Parts that came more than once. */
  readonly repeatedCount: number;
}

/** A message of which something is missing or wrong: nothing of it is to be used. */
export interface UnreadMessage extends MessageId {
  readonly partCount: number;
  readonly missingNumbers: readonly number[];
  readonly problems: readonly [Problem, ...Problem[]];
}

export interface Joined {
  readonly whole: readonly WholeMessage[];
  readonly unread: readonly UnreadMessage[];
  readonly damaged: readonly DamagedPart[];
}

/**
 * Joins the parts found in a text into messages: in any order, twice, mixed with those of others, with text around.
 *
 * Problems of messages: `message.part-missing`, `message.parts-differ`, `message.seal` (the parts fit each by itself, and
 * not together), `message.base-time`, `message.mac` (another key, or changed by somebody), `message.unsigned`,
 * `message.key-short`.
 */
export function joinFrames(text: string, settings: ReadSettings): Joined {
  return joinParts(findParts(text, settings.where), settings);
}

function joinParts({ parts, damaged }: FoundParts, settings: ReadSettings): Joined {
  const damagedNames = new Set(damaged.flatMap(({ claims }) => (claims === null ? [] : [partName(claims)])));
  const groups = new Map<string, Part[]>();
  for (const part of parts) {
    const key = `${messageName(part)} in ${part.partCount}`;
    groups.set(key, [...(groups.get(key) ?? []), part]);
  }
  const read = [...groups.values()].map((group) => joinGroup(group, damagedNames, settings));
  return {
    whole: read.flatMap((message) => ('body' in message ? [message] : [])),
    unread: read.flatMap((message) => ('body' in message ? [] : [message])),
    damaged,
  };
}

function joinGroup(
  group: readonly Part[],
  damagedNames: ReadonlySet<string>,
  settings: ReadSettings,
): WholeMessage | UnreadMessage {
  const [any] = group;
  if (any === undefined) throw new Error('a group has a part');
  const { kind, sender, counterNumber, partCount } = any;
  const id = { kind, sender, counterNumber };
  const pieces = new Map<number, ReadonlySet<string>>();
  for (const { partNumber, piece } of group)
    pieces.set(partNumber, new Set([...(pieces.get(partNumber) ?? []), piece]));
  const numbers = Array.from({ length: partCount }, (_, index) => index + 1);
  const missingNumbers = numbers.filter((number) => !pieces.has(number));
  const unread = (first: Problem, ...rest: Problem[]): UnreadMessage => ({
    ...id,
    partCount,
    missingNumbers,
    problems: [first, ...rest],
  });
  const [first, ...rest] = [
    ...missingProblems({ ...id, partCount, missingNumbers }, damagedNames, settings),
    ...numbers
      .filter((number) => (pieces.get(number)?.size ?? 0) > 1)
      .map((number) => differing({ ...id, partNumber: number, partCount }, settings)),
  ];
  if (first !== undefined) return unread(first, ...rest);
  const text = numbers.map((number) => [...(pieces.get(number) ?? [])].join('')).join('');
  const opened = open(id, text, settings);
  if ('code' in opened) return unread(opened);
  return { ...id, ...opened, partCount, repeatedCount: group.length - partCount };
}

type Opened = Pick<WholeMessage, 'baseEpochMs' | 'body' | 'signature' | 'fingerprint'>;

function open(id: MessageId, text: string, settings: ReadSettings): Opened | Problem {
  const at = text.lastIndexOf(SEAL_SEPARATOR);
  const [content, seal] = [text.slice(0, Math.max(0, at)), text.slice(at + 1)];
  const signature = signatureOf(id, { content, seal }, settings);
  if (typeof signature !== 'string') return signature;
  const baseEpochMs = parseBaseTime(content.slice(0, BASE_TIME_LENGTH_COUNT));
  if (baseEpochMs === null)
    return problem('base-time', `The ${messageName(id)} has no base time.`, {
      where: settings.where,
      expected: 'year, month, day, hour and minute in ten digits',
      remedy: `Ask: send ${messageName(id)} again, with a new counter.`,
    });
  const body = content.slice(BASE_TIME_LENGTH_COUNT);
  return { baseEpochMs, body, signature, fingerprint: fingerprintOf(id, content) };
}

function signatureOf(
  id: MessageId,
  { content, seal }: { content: string; seal: string },
  { where, keyOctets, takesUnsigned = false }: ReadSettings,
): WholeMessage['signature'] | Problem {
  const name = messageName(id);
  const again = `Ask: send ${name} again, with a new counter.`;
  const [hash, mac] = [seal.slice(0, HASH_LENGTH_COUNT), seal.slice(HASH_LENGTH_COUNT)];
  if (hash !== hashOf(id, content) || (mac.length !== 0 && mac.length !== MAC_LENGTH_COUNT))
    return problem('seal', `The parts of ${name} do not belong together.`, {
      where,
      expected: 'parts of one message',
      remedy: `Its counter was used for two messages. ${again}`,
    });
  if (mac !== '') {
    if (keyOctets === null) return 'signed-not-verified';
    if (keyOctets.length < LEAST_KEY_OCTETS_COUNT) return { ...keyShort(keyOctets.length), where };
    if (isSameSecretly(macOf(id, content, keyOctets), mac)) return 'verified';
    return problem('mac', `The signature of ${name} does not fit this key.`, {
      where,
      expected: 'a message written with the same key',
      remedy: `Another key was used, or somebody changed the message. Do not use it. Compare the keys, then: ${again}`,
    });
  }
  if (keyOctets === null || takesUnsigned) return 'unsigned';
  return problem('unsigned', `The ${name} is not signed.`, {
    where,
    expected: 'a message written with the key that is given',
    remedy: `Anybody may have written it. ${again} To read it all the same: --unsigned.`,
  });
}

/** More parts than this are not named one by one; ours. */
const MOST_NAMED_COUNT = 20;

function missingProblems(
  of: MessageId & { readonly partCount: number; readonly missingNumbers: readonly number[] },
  damagedNames: ReadonlySet<string>,
  { where }: ReadSettings,
): Problem[] {
  const { partCount, missingNumbers } = of;
  const expected = `all ${partCount} parts`;
  if (missingNumbers.length > MOST_NAMED_COUNT)
    return [
      problem('part-missing', `${missingNumbers.length} of ${partCount} parts of ${messageName(of)} are missing.`, {
        where,
        expected,
        remedy: `Ask: send ${messageName(of)} again.`,
      }),
    ];
  return missingNumbers.map((partNumber) => {
    const name = partName({ ...of, partNumber });
    return problem('part-missing', `The ${name} is ${damagedNames.has(name) ? 'damaged' : 'missing'}.`, {
      where,
      expected,
      remedy: `Ask: send ${name} again.`,
    });
  });
}

const differing = (part: Omit<Part, 'piece'>, { where }: ReadSettings): Problem =>
  problem('parts-differ', `There are two of ${partName(part)}, and they differ.`, {
    where,
    expected: 'one content for each part',
    remedy: `Its counter was used for two messages. Ask: send ${messageName(part)} again, with a new counter.`,
  });

const problem = (code: string, what: string, of: Omit<Problem, 'code' | 'what'>): Problem => ({
  code: `message.${code}`,
  what,
  ...of,
});
