import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseLog } from '../../lib/log/index.ts';
import {
  backupLine,
  digestOfPassage,
  entriesOfReport,
  forecastOfDigest,
  type Message,
  messageText,
  packDigest,
  planMessageOf,
  type ReadMessage,
  readMessages,
  replayCheck,
  reportOf,
  unpackDigest,
  writeMessage,
} from '../../lib/message/index.ts';
import { accepted, type Attempt, differenceOf, refused } from './attempt.ts';
import { decoded, type Depth, type TextFormat } from './format.ts';
import { littleForecast, littlePassage, littlePlan, must } from './little-world.ts';
import { messageDamages } from './message-damages.ts';
import type { Sample } from './mutant.ts';

const GIANT_ONE_IN = 60;
const LIMIT_COUNT = 160;
const KEY = Buffer.from('a key of more than sixteen octets');
const MARK = { sender: 'LW', counterNumber: 7 };
const WHERE = 'mutant';

/** Plans and reports, signed and not, in parts; one in capitals alone. */
export function messageFormat(): TextFormat {
  const { plan } = littlePlan();
  const nowEpochMs = Date.UTC(2026, 4, 28, 12);
  const demo = readFileSync(resolve(import.meta.dirname, '../../sample-forecasts/demo-log.jsonl'), 'utf8');
  const report = must(reportOf(must(parseLog(demo, 'log')), nowEpochMs, { note: 'ALL WELL' }));
  const planMessage = must(planMessageOf(plan, { planNumber: 4, jobs: littlePassage().jobs, note: 'MIND THE REEF' }));
  return formatOf([
    ...written('plan', planMessage),
    ...written('report', report),
    { name: 'plan in short', text: partsOf(must(planMessageOf(plan, { detail: 'short' })), null) },
  ]);
}

/** Digests: as messages in parts, and packed, as they are kept. */
export function digestFormat(): TextFormat {
  const passage = littlePassage();
  const nowEpochMs = passage.fixedNowEpochMs ?? 0;
  const asked = { passage, forecast: littleForecast(), nowEpochMs, mostCharacterCount: 1200 };
  const [long, short] = [24, 9].map((aheadH) => must(digestOfPassage({ ...asked, aheadH })));
  if (long === undefined || short === undefined) throw new Error('two digests');
  return formatOf([
    ...written('digest', { kind: 'digest', madeEpochMs: nowEpochMs, digest: long }),
    { name: 'digest in short', text: partsOf({ kind: 'digest', madeEpochMs: nowEpochMs, digest: short }, null) },
    { name: 'packed digest', text: packDigest(short) },
  ]);
}

const partsOf = (message: Message, keyOctets: Uint8Array | null): string =>
  must(writeMessage(message, MARK, { limitCount: LIMIT_COUNT, keyOctets })).join('\n');

const written = (name: string, message: Message): Sample[] => [
  { name, text: partsOf(message, null) },
  { name: `${name}, signed`, text: partsOf(message, KEY) },
];

function formatOf(samples: readonly Sample[]): TextFormat {
  const signed = new Set(
    samples.flatMap(({ text }) =>
      readMessages(text, { where: WHERE, keyOctets: KEY }).read.map((one) => one.fingerprint),
    ),
  );
  return {
    samples,
    own: messageDamages(GIANT_ONE_IN),
    attempt: (octets, depth) => attempt(decoded(octets), signed, depth),
  };
}

function attempt(text: string, signed: ReadonlySet<string>, depth: Depth): Attempt {
  const open = readMessages(text, { where: WHERE, keyOctets: null });
  // Without the key every message that is whole is read: none can be verified that is not among them.
  const isKeyTried = depth !== 'read' || open.read.some(({ signature }) => signature !== 'unsigned');
  const locked = isKeyTried ? readMessages(text, { where: WHERE, keyOctets: KEY }) : open;
  const problems = [open, locked].flatMap(({ unread, damaged }) => [
    ...unread.flatMap((one) => one.problems),
    ...damaged.map(({ problem }) => problem),
  ]);
  const told = refused(problems.slice(0, 500), text);
  const packed = unpackDigest(text, WHERE);
  if (packed.ok && depth !== 'read') forecastOfDigest(packed.value);
  const packedTold = packed.ok ? null : refused(packed.problems, text).fault;
  const forged = locked.read.find(({ signature, fingerprint }) => signature === 'verified' && !signed.has(fingerprint));
  const fault =
    told.fault ??
    packedTold ??
    (forged === undefined ? null : 'a message was changed and counts as verified') ??
    (depth === 'read' ? null : open.read.map(messageFault).find((one) => one !== null)) ??
    null;
  return { codes: open.read.length > 0 || packed.ok ? [...told.codes, 'accepted'] : told.codes, fault };
}

/** What was read can be said, used, and sent again as it was. */
function messageFault(read: ReadMessage): string | null {
  const { message, sender, counterNumber } = read;
  const words = [...messageText(message), backupLine(message)].join('\n');
  const strange = /undefined|NaN|Infinity|\[object /.exec(words);
  if (strange !== null) return `it says: ${words.slice(Math.max(0, strange.index - 80), strange.index + 20)}`;
  replayCheck({}, read);
  if (message.kind === 'digest') forecastOfDigest(message.digest);
  if (message.kind === 'report') entriesOfReport(message);
  const parts = writeMessage(message, { sender, counterNumber }, { limitCount: LIMIT_COUNT, keyOctets: null });
  if (!parts.ok) return `it cannot be sent again: ${parts.problems[0].what}`;
  const again = readMessages(parts.value.join('\n'), { where: 'again', keyOctets: null });
  const [one] = again.read;
  if (one === undefined) return `sent again it is refused: ${JSON.stringify(again.unread[0]?.problems[0])}`;
  return accepted(differenceOf(message, one.message)).fault;
}
