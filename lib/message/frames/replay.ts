import { failed, ok, type Result } from '../../result/index.ts';
import { KIND_LETTERS, messageName } from './part.ts';
import type { WholeMessage } from './join-frames.ts';

/** The last message taken of each kind and sender, by `P.LW`. */
export type SeenCounters = Readonly<Record<string, SeenMessage>>;

export interface SeenMessage {
  readonly counterNumber: number;
  readonly fingerprint: string;
}

/** Under what a message is counted. */
export const counterName = ({ kind, sender }: Pick<WholeMessage, 'kind' | 'sender'>): string =>
  `${KIND_LETTERS[kind]}.${sender}`;

export interface ReplayCheck {
  /** `duplicate`: the very message taken last came again, and changes nothing. */
  readonly verdict: 'new' | 'duplicate';
  /** The counters once it is taken. */
  readonly seen: SeenCounters;
}

/**
 * Whether a message may be taken after those taken before: its counter must rise for its kind and sender.
 *
 * @returns `message.replayed` (an older counter), `message.counter-used` (the same counter, another content)
 */
export function replayCheck(seen: SeenCounters, message: WholeMessage): Result<ReplayCheck> {
  const name = counterName(message);
  const last = Object.hasOwn(seen, name) ? seen[name] : undefined;
  const { counterNumber, fingerprint } = message;
  if (last === undefined || counterNumber > last.counterNumber)
    return ok({ verdict: 'new', seen: { ...seen, [name]: { counterNumber, fingerprint } } });
  if (counterNumber === last.counterNumber && fingerprint === last.fingerprint)
    return ok({ verdict: 'duplicate', seen });
  const isUsed = counterNumber === last.counterNumber;
  return failed({
    code: isUsed ? 'message.counter-used' : 'message.replayed',
    where: messageName(message),
    what: isUsed
      ? `Another ${message.kind} with counter ${counterNumber} was taken before.`
      : `A newer ${message.kind} from ${message.sender} was taken before: counter ${last.counterNumber}.`,
    expected: `a counter above ${last.counterNumber}`,
    remedy: isUsed
      ? 'Ask the sender to write it again with a new counter.'
      : 'It is an old message that came late, or somebody sent it again. Use the newer one.',
  });
}
