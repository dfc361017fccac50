import type { Problem } from '../../lib/result/index.ts';
import { formatAt } from '../../lib/time/index.ts';
import { versionText } from './notices.ts';

/** The passage as a document: what is kept of it, where it came from, what else there is. */
export interface DocumentPage {
  /** null: no passage was taken over yet. */
  readonly shown: ShownDocument | null;
  /** Why its text cannot be used, or why there is none; empty: nothing is wrong. */
  readonly problems: readonly Problem[];
  readonly others: readonly OtherDocument[];
  /** Of the form that brings a passage in. */
  readonly token: string;
  /** What is wrong with a file that was sent; empty: nothing, or none was. */
  readonly bringInProblems: readonly Problem[];
}

export interface ShownDocument {
  readonly title: string;
  readonly name: string;
  readonly saved: string;
  /** null: it was made here. */
  readonly sourceFile: string | null;
  readonly sourceState: string;
  /** Hidden field of its forms. */
  readonly version: string;
  /** Button that takes the file over; null: nothing would come of it, or a notice has it. */
  readonly takeOver: string | null;
  readonly versions: readonly VersionRow[];
}

export interface VersionRow {
  /** It is the one shown. */
  readonly isShown: boolean;
  readonly version: string;
  readonly saved: string;
}

export interface OtherDocument {
  readonly number: number;
  readonly name: string;
  readonly text: string;
}

interface Known {
  readonly number: number;
  readonly version: number;
  readonly name: string;
  readonly savedAtEpochMs: number;
  readonly takenAtEpochMs: number;
  /** No file was its beginning. */
  readonly isMadeHere?: boolean;
}

interface KnownShown extends Known {
  readonly sourceFile: string;
  readonly sourceName: string;
  readonly fileState: 'same' | 'changed' | 'unreadable' | 'none';
  readonly isEdited: boolean;
}

/** @param list all documents of the file; the one shown is left out of the others */
export function documentPage(input: {
  readonly document: KnownShown | null;
  readonly problems: readonly Problem[];
  readonly versions: readonly Pick<Known, 'version' | 'savedAtEpochMs'>[];
  readonly list: readonly Known[];
  readonly token: string;
  readonly bringInProblems?: readonly Problem[];
}): DocumentPage {
  const { document, problems, versions, list, token, bringInProblems = [] } = input;
  return {
    shown: document === null ? null : shownDocument(document, versions, list),
    problems,
    token,
    bringInProblems,
    others: list
      .filter(({ number }) => number !== document?.number)
      .map((one) => ({
        number: one.number,
        name: one.name,
        text: `Passage ${one.number}, ${one.isMadeHere === true ? 'made here' : 'taken over'} ${utc(one.takenAtEpochMs)}, last saved ${utc(one.savedAtEpochMs)} as version ${one.version}`,
      })),
  };
}

function shownDocument(
  document: KnownShown,
  versions: readonly Pick<Known, 'version' | 'savedAtEpochMs'>[],
  list: readonly Known[],
): ShownDocument {
  return {
    title: `Passage ${document.number}, version ${document.version}`,
    name: document.name,
    saved: utc(document.savedAtEpochMs),
    sourceFile: document.fileState === 'none' ? null : document.sourceFile,
    sourceState: sourceState(document),
    version: versionText(document),
    takeOver: takeOverButton(document, list),
    versions: versions
      .map(({ version, savedAtEpochMs }) => ({
        version: String(version),
        isShown: version === document.version,
        saved: utc(savedAtEpochMs),
      }))
      .toReversed(),
  };
}

function sourceState({ fileState, isEdited, takenAtEpochMs }: KnownShown): string {
  const edited = isEdited ? 'The passage was changed here since.' : 'The passage was not changed here since.';
  if (fileState === 'none')
    return `Made on these pages ${utc(takenAtEpochMs)}. ${isEdited ? 'It was changed since.' : 'It was not changed since.'}`;
  const taken = `Taken over ${utc(takenAtEpochMs)}.`;
  if (fileState === 'unreadable')
    return `${taken} ${edited} The file cannot be read any more; the passage needs it no longer.`;
  return `${taken} ${edited} The file ${fileState === 'changed' ? 'has changed since' : 'is as it was'}.`;
}

/** A file that has changed has its button in the notice above. */
function takeOverButton({ fileState, isEdited, sourceName }: KnownShown, list: readonly Known[]): string | null {
  if (fileState === 'none')
    return list.some(({ isMadeHere }) => isMadeHere !== true) ? null : `Take over ${sourceName}, as a new passage`;
  return fileState === 'same' && isEdited ? 'Back to the file as it is, as a new passage' : null;
}

/** With its year: what is kept may be years old. */
const utc = (epochMs: number): string => `${formatAt(epochMs, 0, 'ccc d LLL yyyy HH:mm')} UTC`;
