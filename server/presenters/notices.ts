import type { Problem } from '../../lib/result/index.ts';
import type { PlanReady, PlanStanding } from './plan-standing.ts';
import { makingText } from './state-page.ts';
import { epochOf, timeTexts } from './time-texts.ts';

/** Said above a page, whatever the page is. */
export interface Notice {
  readonly kind:
    | 'saved'
    | 'not-saved'
    | 'file-changed'
    | 'plan-outdated'
    | 'plan-making'
    | 'logged'
    | 'message'
    | 'trial';
  readonly title: string;
  readonly text: string;
  readonly problems: readonly Problem[];
  /** What can be done about it at once; null: nothing. */
  readonly action: NoticeAction | null;
  /** A page that has more of it; absent: none has. */
  readonly link?: { readonly href: string; readonly text: string };
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
  /** `taken over from my-passage.json`, or `made here`. */
  readonly source: string;
}

/** What notices know of the document that is shown. */
export interface NoticedDocument {
  readonly number: number;
  readonly version: number;
  readonly sourceName: string;
  readonly fileState: 'same' | 'changed' | 'unreadable' | 'none';
  readonly isFileChanged: boolean;
  readonly isEdited: boolean;
}

/** Text of a hidden field `version`: which state of which passage a form was made from. */
export const versionText = ({ number, version }: { number: number; version: number }): string => `${number}.${version}`;

/** What the plan that is shown was made of. */
interface Planned {
  readonly number: number;
  readonly version: number;
  readonly logNumber: number;
}

interface Noticed {
  readonly standing: PlanStanding;
  /** null: there is no plan. */
  readonly planned: Planned | null;
  /** Number of the last entry of the log that can change a plan. */
  readonly logNumber: number;
  /** Version a form has just been saved as, from the address; null: none was. */
  readonly savedVersion: string | null;
  /** Number of the earlier version it was taken back to; absent or null: it was not. */
  readonly backTo?: number | null;
  /** It was only shown from now on, and not changed. */
  readonly isOnlyShown?: boolean;
  readonly nowEpochMs: number;
}

/** Notices of a page that shows this document. */
export function noticesOf(document: NoticedDocument, noticed: Noticed): readonly Notice[] {
  const { standing, planned, savedVersion, nowEpochMs } = noticed;
  return [
    ...(savedVersion === versionText(document) ? [saved(document, noticed)] : []),
    ...(document.isFileChanged ? [fileChanged(document)] : []),
    ...(standing.kind === 'ready' && standing.making !== undefined ? [making(standing, nowEpochMs)] : []),
    ...(standing.kind === 'ready' && standing.making === undefined && planned !== null
      ? outdatedNotices(document, planned, noticed.logNumber)
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

export const keptLine = ({ number, version, sourceName, fileState }: NoticedDocument): KeptLine => ({
  passage: `Passage ${number}, version ${version}`,
  source: fileState === 'none' ? 'made here' : `taken over from ${sourceName}`,
});

/** With the button that takes the change back; one that was taken back can be put back by the same way. */
function saved(document: NoticedDocument, { standing, backTo = null, isOnlyShown = false }: Noticed): Notice {
  const { version } = document;
  const planned = isMaking(standing) ? ' Its plan is being made anew.' : '';
  const canGoBack = version > 1 && !isOnlyShown;
  return {
    kind: 'saved',
    title: backTo === null ? 'Saved' : 'Taken back',
    text:
      backTo === null
        ? `The passage is at version ${version}.${planned}`
        : `The passage is again as it was at version ${backTo}, and kept as version ${version}.${planned}`,
    problems: [],
    action: canGoBack
      ? {
          path: UNDO_PATH,
          button: backTo === null ? 'Take this change back' : 'Put the change back',
          version: versionText(document),
        }
      : null,
  };
}

/** Where the form goes that takes the last change of the passage back. */
const UNDO_PATH = '/document/undo';

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

const isMaking = (standing: PlanStanding): boolean =>
  standing.kind === 'planning' || (standing.kind === 'ready' && standing.making !== undefined);

/** `plan 3 of Thu 08:12`, or `the plan of Thu 08:12` where it has no number. */
export const planName = ({ view }: PlanReady): string =>
  `${view.plan.planNumber === null ? 'the plan' : `plan ${view.plan.planNumber}`} of ${timeTexts(view.picture.shipTimeOffsetMin).dayTime(epochOf(view.plan.madeAtUtc))}`;

/** What is said while a new plan is made, again and again; the plan that stands is shown meanwhile. */
export function makingState(
  standing: PlanStanding,
  nowEpochMs: number,
): { readonly text: string; readonly isMaking: boolean } {
  if (standing.kind !== 'ready') return { text: 'There is no plan to show.', isMaking: false };
  const name = planName(standing);
  if (standing.making !== undefined) {
    return { text: `What is shown is ${name}. ${makingText(standing.making, nowEpochMs)}`, isMaking: true };
  }
  const isOld = standing.notRenewed !== undefined;
  return {
    text: isOld ? `No new plan came of it; ${name} stands.` : `The plan that stands now is ${name}.`,
    isMaking: false,
  };
}

const making = (standing: PlanReady, nowEpochMs: number): Notice => ({
  kind: 'plan-making',
  title: 'A new plan is being made',
  text: makingState(standing, nowEpochMs).text,
  problems: [],
  action: { path: '/plan/stop', button: 'Stop, and take the best plan found so far', version: null },
});

function outdatedNotices(document: NoticedDocument, planned: Planned, logNumber: number): readonly Notice[] {
  if (versionText(planned) !== versionText(document)) return [outdated(document, planned)];
  return planned.logNumber === logNumber ? [] : [outdatedLog(planned, logNumber)];
}

const outdatedLog = (planned: Planned, logNumber: number): Notice => ({
  kind: 'plan-outdated',
  title: 'This plan knows an earlier log',
  text: `It was made with ${planned.logNumber === 0 ? 'an empty log' : `the log up to entry ${planned.logNumber}`}; the log has gone on to entry ${logNumber}.`,
  problems: [],
  action: { path: '/plan/again', button: 'Make the plan', version: null },
});

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
