import type { MessageId, MessageKind } from '../../lib/message/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { KeptMessage } from '../keep-messages.ts';

const KIND_NAMES: Readonly<Record<MessageKind, string>> = { plan: 'plan', digest: 'weather digest', report: 'report' };

/** `plan 12 from LW`: the counter is what the other side asks by. */
export const messageTitle = ({ kind, counterNumber, sender }: MessageId): string =>
  `${KIND_NAMES[kind]} ${counterNumber} from ${sender}`;

const SIGNATURES: Readonly<Record<KeptMessage['signature'], string>> = {
  signed: 'Signed with the key on board.',
  verified: 'Signed, and the signature fits the key on board: whoever wrote it has the key.',
  'signed-not-verified': 'Signed, but not verified: no key is on board. Anybody may have written it.',
  unsigned: 'Not signed: anybody may have written it.',
};

/** Whether a message is signed, and what that is worth. */
export function signatureWords({ signature, direction }: Pick<KeptMessage, 'signature' | 'direction'>): string {
  if (direction === 'sent' && signature === 'unsigned')
    return 'Not signed: no key was on board. The other side cannot tell who wrote it.';
  return SIGNATURES[signature];
}

/** What can be done about a message on a page, where the command line has switches. */
export function onPage(problem: Problem): Problem {
  if (problem.code === 'message.unsigned')
    return {
      ...problem,
      remedy: problem.remedy.replace(/To read it all the same.*$/, 'To read it all the same, tick that below.'),
    };
  if (problem.code === 'message.part-case')
    return {
      ...problem,
      remedy: 'Plans and reports: tick below that it is read as capitals. A digest: ask for it by another way.',
    };
  return problem;
}

/** Lines of plain words; those within another are set in. */
export interface WordLine {
  readonly text: string;
  readonly isWithin: boolean;
}

export const wordLinesOf = (lines: readonly string[]): readonly WordLine[] =>
  lines.filter((line) => line.trim() !== '').map((line) => ({ text: line.trim(), isWithin: line.startsWith('  ') }));
