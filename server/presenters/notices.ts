import type { Problem } from '../../lib/result/index.ts';
import type { PlanStanding } from './plan-standing.ts';

/** Said above a page, whatever the page is. */
export interface Notice {
  readonly kind: 'saved' | 'not-saved' | 'file-changed' | 'plan-outdated';
  readonly title: string;
  readonly text: string;
  readonly problems: readonly Problem[];
  /** What can be done about it at once; null: nothing. */
  readonly action: NoticeAction | null;
}

export interface NoticeAction {
  /** Where the form goes. */
  readonly path: string;
  readonly button: string;
  /** Hidden field `version`; null: none is needed. */
  readonly version: string | null;
}

/** Under a page: which state of which passage it is about. */
export interface KeptLine {
  /** `Passage 3, version 4`. */
  readonly passage: string;
  /** `taken over from my-passage.json`. */
  readonly source: string;
}

/** What notices know of the document that is shown. */
export interface NoticedDocument {
  readonly number: number;
  readonly version: number;
  readonly sourceName: string;
  readonly isFileChanged: boolean;
  readonly isEdited: boolean;
}

/** Text of a hidden field `version`: which state of which passage a form was made from. */
export const versionText = ({ number, version }: { number: number; version: number }): string => `${number}.${version}`;

/**
 * Notices of a page that shows this document.
 *
 * @param planned what the plan that is shown was made of
 * @param savedVersion version a form has just been saved as, from the address; null: none was
 */
export function noticesOf(
  document: NoticedDocument,
  {
    standing,
    planned,
    savedVersion,
  }: {
    standing: PlanStanding;
    planned: { readonly number: number; readonly version: number } | null;
    savedVersion: string | null;
  },
): readonly Notice[] {
  return [
    ...(savedVersion === versionText(document) ? [saved(document, standing)] : []),
    ...(document.isFileChanged ? [fileChanged(document)] : []),
    ...(standing.kind === 'ready' && planned !== null && versionText(planned) !== versionText(document)
      ? [outdated(document, planned)]
      : []),
  ];
}

/** Above a page whose form could not be saved. */
export function notSaved(problems: readonly Problem[]): Notice {
  const count = problems.length === 1 ? 'one thing has' : `${problems.length} things have`;
  const isConflict = problems.some(({ code }) => code === 'store.version-conflict');
  return {
    kind: 'not-saved',
    title: 'Not saved',
    text: isConflict
      ? 'The passage was changed in the meantime, so nothing of this was written. What was saved then is kept.'
      : `Nothing was changed: ${count} to be put right first.`,
    problems,
    action: null,
  };
}

export const keptLine = ({ number, version, sourceName }: NoticedDocument): KeptLine => ({
  passage: `Passage ${number}, version ${version}`,
  source: `taken over from ${sourceName}`,
});

const saved = ({ version }: NoticedDocument, standing: PlanStanding): Notice => ({
  kind: 'saved',
  title: 'Saved',
  text: `The passage is at version ${version}.${standing.kind === 'planning' ? ' Its plan is being made anew.' : ''}`,
  problems: [],
  action: null,
});

function fileChanged(document: NoticedDocument): Notice {
  const { sourceName, number, isEdited } = document;
  return {
    kind: 'file-changed',
    title: `${sourceName} has changed`,
    text: isEdited
      ? `It has changed since it was taken over. What is shown is the passage as it was changed here. Taking the file over makes a new passage of it; this one is kept as passage ${number}.`
      : 'It has changed since it was taken over. Nobody has changed the passage here, so the file can replace it; its earlier state is kept.',
    problems: [],
    action: {
      path: '/document/take-over',
      button: isEdited ? 'Take the file over as a new passage' : 'Take the file over',
      version: versionText(document),
    },
  };
}

function outdated(document: NoticedDocument, planned: { readonly number: number; readonly version: number }): Notice {
  const made =
    planned.number === document.number
      ? `version ${planned.version} of the passage`
      : `passage ${planned.number}, version ${planned.version}`;
  return {
    kind: 'plan-outdated',
    title: 'This plan is of an earlier state of the passage',
    text: `It was made of ${made}; what is kept now is ${planned.number === document.number ? '' : `passage ${document.number}, `}version ${document.version}.`,
    problems: [],
    action: { path: '/plan/again', button: 'Make the plan', version: null },
  };
}
