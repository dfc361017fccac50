import type { Problem, Result } from '../../lib/result/index.ts';
import { type PartView, partViews } from './message-parts.ts';

/** How much a message would fill, before it is written. */
export interface CountView {
  /** `It would be 2 parts of at most 160 septets: 297 characters in all.`, or why it cannot be counted. */
  readonly sentence: string;
  /** Each with how much it fills. */
  readonly parts: readonly Pick<PartView, 'label' | 'length' | 'filledShare'>[];
  readonly problems: readonly Problem[];
}

/** A sender as long as senders may be, for counting before one is written. */
export const LONGEST_SENDER = 'XXXX';

export interface Counted {
  /** The parts, one a line. */
  readonly text: Result<string>;
  readonly limitCount: number;
  /** It was counted with {@link LONGEST_SENDER}. */
  readonly isSenderMissing: boolean;
}

export function countView({ text, limitCount, isSenderMissing }: Counted): CountView {
  if (!text.ok) return { sentence: 'It cannot be counted as it stands.', parts: [], problems: text.problems };
  const parts = partViews(text.value, limitCount);
  const unitCount = parts.reduce((sum, part) => sum + part.unitCount, 0);
  const unit = parts[0]?.unit ?? '';
  const what = parts.length === 1 ? 'one part' : `${parts.length} parts`;
  const counted = isSenderMissing ? ' Counted with a sender of four letters.' : '';
  return {
    sentence: `It would be ${what} of at most ${limitCount} ${unit}, ${unitCount} in all.${counted}`,
    parts: grouped(parts),
    problems: [],
  };
}

/** Parts of the same length next to each other in one line. */
function grouped(parts: readonly PartView[]): CountView['parts'] {
  const runs: { first: number; last: number; part: PartView }[] = [];
  for (const [index, part] of parts.entries()) {
    const run = runs.at(-1);
    if (run?.part.length === part.length) run.last = index + 1;
    else runs.push({ first: index + 1, last: index + 1, part });
  }
  return runs.map(({ first, last, part: { label, length, filledShare } }) =>
    first === last
      ? { label, length, filledShare }
      : { label: `Parts ${first} to ${last} of ${parts.length}`, length: `${length} each`, filledShare },
  );
}

/** A digest is made for the room there is; asking for it at every stroke would keep the planner busy. */
export const DIGEST_NOT_COUNTED: CountView = {
  sentence: 'A digest is packed to fill the parts it is given; the button counts it.',
  parts: [],
  problems: [],
};
