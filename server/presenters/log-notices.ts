import type { Problem } from '../../lib/result/index.ts';
import type { Notice } from './notices.ts';

/** Above a form of the log that was not written; what is wrong stands at its inputs. */
export function notWritten(problems: readonly Problem[]): Notice {
  const other = problems.find(({ code }) => code === 'log.other-passage');
  const count = problems.length === 1 ? 'one thing has' : `${problems.length} things have`;
  return {
    kind: 'not-saved',
    title: 'Not written down',
    text: other === undefined ? `Nothing was added to the log: ${count} to be put right first.` : other.what,
    problems: [],
    action: null,
  };
}

/** Above the form of an entry that somebody has corrected since it was opened. */
export const entryMoved: Notice = {
  kind: 'not-saved',
  title: 'Not written down',
  text: 'The entry was corrected or withdrawn in the meantime, so nothing of this was written. What was written then is kept.',
  problems: [],
  action: null,
};

/** Above the log once an entry is written. */
export const writtenDown = (of: {
  readonly number: number;
  readonly words: string;
  /** What takes it back; null: it cannot be taken back with one button. */
  readonly withdraw: { readonly number: number; readonly version: string } | null;
}): Notice => ({
  kind: 'logged',
  title: 'Written down',
  text: `Entry ${of.number}: ${of.words}`,
  problems: [],
  action:
    of.withdraw === null
      ? null
      : { path: `/log/${of.withdraw.number}/withdraw`, button: 'Withdraw it', version: of.withdraw.version },
});
