import path from 'node:path';
import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import type { Result } from '../../lib/result/index.ts';
import type { DocumentVersion, StoredDocument } from '../stores/index.ts';
import { textHash } from '../stores/index.ts';
import type { PassageText } from '../stores/passage-files.ts';

export type { DocumentVersion } from '../stores/index.ts';

/** The file a document came from, against what was taken over of it; `none`: it was made on the pages. */
export type FileState = 'same' | 'changed' | 'unreadable' | 'none';

/** What is known of a document without reading its text. */
export interface PassageDocumentInfo extends DocumentVersion {
  /** Its own among all passages of the store: `store:NAME`. */
  readonly name: string;
  readonly savedAtEpochMs: number;
  readonly takenAtEpochMs: number;
  /** Absolute path of the file it came from; of one made on the pages, the file that is shown where it is not. */
  readonly sourceFile: string;
  readonly sourceName: string;
  readonly fileState: FileState;
  readonly isFileChanged: boolean;
  /** It was changed on these pages since it was taken over or made. */
  readonly isEdited: boolean;
}

/** The passage that is shown: as its file has it, and checked. */
export interface PassageDocument extends PassageDocumentInfo {
  readonly file: PassageFile;
  readonly passage: Passage;
}

/** A passage entered on the pages. */
export interface MadePassage {
  readonly file: PassageFile;
  /** Of its form: sent twice it makes one passage. */
  readonly formToken: string;
}

/** The text of a document, for the planner. */
export interface DocumentText extends PassageText, DocumentVersion {}

export interface ChangePassage {
  /** The version the change was made to. */
  readonly expected: DocumentVersion;
  /** The file changed; the one given is left as it is. Problems it finds itself leave the document as it is too. */
  readonly change: (file: PassageFile) => Result<PassageFile>;
}

export interface BringBack {
  /** The version that is shown. */
  readonly expected: DocumentVersion;
  /** Number of the earlier one whose text is wanted again. */
  readonly version: number;
}

export const isSameVersion = (one: DocumentVersion, other: DocumentVersion): boolean =>
  one.number === other.number && one.version === other.version;

/** Put before the path in every problem of a document: it is the passage, not the file it once came from. */
export const placeOf = (number: number): string => `passage ${number}`;

export const isEdited = ({ json, takenHash }: StoredDocument): boolean => textHash(json) !== takenHash;

export const textOf = (
  { number, version, json, folder, file, isMadeHere }: StoredDocument,
  storeFolder: string | null,
): DocumentText => ({
  number,
  version,
  text: json,
  where: placeOf(number),
  folder,
  fileName: isMadeHere ? `passage-${number}.json` : path.basename(file),
  storeFolder,
});

export const infoOf = (stored: StoredDocument, fileState: FileState): PassageDocumentInfo => ({
  number: stored.number,
  version: stored.version,
  name: stored.name,
  savedAtEpochMs: stored.savedAtEpochMs,
  takenAtEpochMs: stored.takenAtEpochMs,
  sourceFile: stored.file,
  sourceName: path.basename(stored.file),
  fileState,
  isFileChanged: fileState === 'changed',
  isEdited: isEdited(stored),
});
