import path from 'node:path';
import { type PassageFile, readPassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { DocumentSummary, Store, StoredDocument, VersionSummary } from '../stores/index.ts';
import { checkPassage } from '../stores/passage-files.ts';
import {
  type BringBack,
  type ChangePassage,
  type DocumentText,
  type DocumentVersion,
  type FileState,
  infoOf,
  isEdited,
  isSameVersion,
  type MadePassage,
  type PassageDocument,
  type PassageDocumentInfo,
  placeOf,
  textOf,
} from './document.ts';
import { changedMeanwhile, noDocument, noSuchVersion } from './document-problems.ts';
import { type CountedVersion, itemsCountedAt } from './items-counted.ts';
import { sourceFile } from './source-file.ts';

/** The passage of one file, as documents of the store. Failures of the store are problems of each answer. */
export interface Documents {
  /** The document that is shown, or why there is none. */
  readonly passageDocument: () => Promise<Result<PassageDocument>>;
  /** What is known of it without checking its text, which is there also when a file it names is gone. */
  readonly documentInfo: () => Promise<Result<PassageDocumentInfo>>;
  readonly passageText: () => Result<DocumentText>;
  /**
   * Changes the document: checked as a whole, then written; on the disk when it returns. The same change of the same
   * version again is as the first: nothing more is written.
   *
   * @returns the document as it is then; else every problem, and nothing was written: what `change` and `parsePassage`
   *   find, `store.version-conflict`, or a failure of the store
   */
  readonly savePassage: (asked: ChangePassage) => Promise<Result<PassageDocument>>;
  /**
   * The text a change would make of the document, to the letter as `savePassage` would write it; nothing is written. Its
   * version is the one it was made to.
   *
   * @returns null where the change changes nothing; else as `savePassage`
   */
  readonly draftPassage: (asked: ChangePassage) => Promise<Result<DocumentText | null>>;
  /**
   * The text of an earlier version as the next one, so that a change is taken back and nothing is lost; checked as any
   * other change.
   *
   * @returns as `savePassage`, or `store.no-such-version`
   */
  readonly bringBackVersion: (asked: BringBack) => Promise<Result<PassageDocument>>;
  /**
   * Brings a document that nobody has edited up to its file; takes the file over where there is no document.
   *
   * @returns whether anything has changed; or what is wrong with the file, and nothing was written
   */
  readonly followFile: () => Promise<Result<boolean>>;
  /**
   * The file as it is now, taken over and shown: as a new document where the one shown was edited, which then stays in the
   * store; else as its next version.
   */
  readonly takeOverFile: (expected: DocumentVersion) => Promise<Result<PassageDocument>>;
  /**
   * A passage entered on the pages as a new document, which is shown from now on. The one shown before stays in the store.
   *
   * @returns the document; or every problem of the passage under the place `new passage`, and nothing was written
   */
  readonly makePassage: (made: MadePassage) => Promise<Result<PassageDocument>>;
  /** Shows another document that was taken over from the same file, or made on the pages. */
  readonly showDocument: (number: number) => Promise<Result<PassageDocument>>;
  /** All documents taken over from the file or made on the pages, by number. */
  readonly documentList: () => Result<readonly DocumentSummary[]>;
  /** Every version there was of a document. */
  readonly documentVersions: (number: number) => Result<readonly VersionSummary[]>;
  /** The text of one of them; null: there was none such. */
  readonly documentVersionText: (of: DocumentVersion) => Result<string | null>;
}

interface Options {
  readonly store: Store;
  /** The passage file; a relative name is made absolute against the folder of the process. */
  readonly file: string;
  readonly nowEpochMs: () => number;
}

/** Keeps the passage of a file in the store. Nothing is taken over before `followFile`. */
export function keepDocuments({ store, file, nowEpochMs }: Options): Documents {
  const source = sourceFile(path.resolve(file));
  let whyNone: Result<never> = failed(noDocument);
  let checked: { readonly stored: StoredDocument; readonly parts: Parts } | null = null;

  const shown = (): Result<StoredDocument> => {
    const found = store.documents.shown(source.file);
    if (!found.ok) return found;
    return found.value === null ? whyNone : ok(found.value);
  };

  /** The text is checked once for each version. */
  const check = async (stored: StoredDocument): Promise<Result<Parts>> => {
    if (checked !== null && isSameVersion(checked.stored, stored)) return ok(checked.parts);
    const parts = await partsOf(stored);
    checked = parts.ok ? { stored, parts: parts.value } : null;
    return parts;
  };

  const fileStateOf = async ({ isMadeHere, takenHash }: StoredDocument): Promise<FileState> =>
    isMadeHere ? 'none' : source.stateAgainst(takenHash);

  const documentOf = async (stored: Result<StoredDocument>): Promise<Result<PassageDocument>> => {
    if (!stored.ok) return stored;
    const parts = await check(stored.value);
    if (!parts.ok) return parts;
    return ok({ ...infoOf(stored.value, await fileStateOf(stored.value)), ...parts.value });
  };

  const takeOver = async (inPlaceOf: DocumentVersion | null): Promise<Result<StoredDocument>> => {
    const read = await source.read();
    if (!read.ok) return read;
    const { name, text } = read.value;
    const { file: from, folder } = source;
    return store.documents.takeOver({ inPlaceOf, file: from, folder, name, json: text, atEpochMs: nowEpochMs() });
  };

  const follow = async (stored: StoredDocument): Promise<Result<boolean>> => {
    // The track may lie in a file of its own, which is looked at again.
    checked = null;
    if (isEdited(stored) || (await fileStateOf(stored)) !== 'changed') return ok(false);
    const read = await source.read();
    if (!read.ok) return read;
    const { name, text } = read.value;
    const followed = store.documents.follow(stored, { name, json: text, atEpochMs: nowEpochMs() });
    return followed.ok ? ok(true) : followed;
  };

  /** Versions are only added to: what was counted is worked out once for each. */
  let counts: { readonly of: DocumentVersion; readonly items: ReadonlyMap<string, number> } | null = null;
  const textWithCounts = (stored: StoredDocument): Result<DocumentText> => {
    const text = textOf(stored, store.folder);
    if (counts === null || !isSameVersion(counts.of, stored)) {
      const versions = everyVersion(store, stored.number);
      if (!versions.ok) return versions;
      counts = { of: { number: stored.number, version: stored.version }, items: itemsCountedAt(versions.value) };
    }
    return ok({ ...text, itemsCountedAt: counts.items });
  };

  /** Checked before it was written: what is on the disk is never called not saved. */
  const write = async (stored: StoredDocument, { name, json, parts }: NextText): Promise<Result<PassageDocument>> => {
    const saved = store.documents.save(stored, { name, json, atEpochMs: nowEpochMs() });
    if (saved.ok) checked = { stored: saved.value, parts };
    return documentOf(saved);
  };

  return {
    passageDocument: () => documentOf(shown()),
    documentInfo: async () => {
      const stored = shown();
      return stored.ok ? ok(infoOf(stored.value, await fileStateOf(stored.value))) : stored;
    },
    passageText: () => {
      const stored = shown();
      return stored.ok ? textWithCounts(stored.value) : stored;
    },
    savePassage: async (asked) => {
      const stored = shown();
      if (!stored.ok) return stored;
      const next = await changed(store, stored.value, asked);
      if (!next.ok) return next;
      return next.value === null ? documentOf(stored) : write(stored.value, next.value);
    },
    draftPassage: async (asked) => {
      const stored = shown();
      if (!stored.ok) return stored;
      const next = await changed(store, stored.value, asked);
      if (!next.ok) return next;
      return next.value === null ? ok(null) : textWithCounts({ ...stored.value, json: next.value.json });
    },
    bringBackVersion: async (asked) => {
      const stored = shown();
      if (!stored.ok) return stored;
      const next = await earlier(store, stored.value, asked);
      if (!next.ok) return next;
      return next.value === null ? documentOf(stored) : write(stored.value, next.value);
    },
    followFile: async () => {
      const found = store.documents.shown(source.file);
      if (!found.ok) return found;
      if (found.value !== null) return follow(found.value);
      const taken = await takeOver(null);
      if (!taken.ok) whyNone = taken;
      return taken.ok ? ok(true) : taken;
    },
    takeOverFile: async (expected) => {
      const stored = shown();
      if (!stored.ok) return stored;
      if (!isSameVersion(expected, stored.value)) return failed(changedMeanwhile(expected, stored.value));
      if (stored.value.isMadeHere || isEdited(stored.value)) return documentOf(await takeOver(stored.value));
      const followed = await follow(stored.value);
      return followed.ok ? documentOf(shown()) : followed;
    },
    makePassage: async ({ file: made, formToken }) => {
      const json = written(made);
      const { file: from, folder } = source;
      const found = await checkPassage({
        text: json,
        where: NEW,
        folder,
        fileName: path.basename(from),
        storeFolder: null,
      });
      if (!found.ok) return found;
      const text = { name: made.name, json, atEpochMs: nowEpochMs() };
      return documentOf(store.documents.make({ ...text, file: from, folder, formToken }));
    },
    showDocument: (number) => documentOf(store.documents.show(source.file, number)),
    documentList: () => store.documents.list(source.file),
    documentVersions: (number) => store.documents.versions(number),
    documentVersionText: (of) => store.documents.versionText(of),
  };
}

/** Put before the path in the problems of a passage that has no number yet. */
const NEW = 'new passage';

/** Every version of a document with its text, in order. */
function everyVersion({ documents }: Store, number: number): Result<readonly CountedVersion[]> {
  const list = documents.versions(number);
  if (!list.ok) return list;
  const versions: CountedVersion[] = [];
  for (const { version, savedAtEpochMs } of list.value.toSorted((a, b) => a.version - b.version)) {
    const json = documents.versionText({ number, version });
    if (!json.ok) return json;
    if (json.value !== null) versions.push({ json: json.value, savedAtEpochMs });
  }
  return ok(versions);
}

type Parts = Pick<PassageDocument, 'file' | 'passage'>;

async function partsOf(stored: StoredDocument): Promise<Result<Parts>> {
  const passage = await checkPassage(textOf(stored, null));
  if (!passage.ok) return passage;
  const file = readPassageFile(stored.json, placeOf(stored.number));
  return file.ok ? ok({ file: file.value, passage: passage.value }) : file;
}

interface NextText {
  readonly name: string;
  readonly json: string;
  readonly parts: Parts;
}

/** The document with a change made to it, checked; null where the change changes nothing, or its form came twice. */
async function changed(store: Store, stored: StoredDocument, asked: ChangePassage): Promise<Result<NextText | null>> {
  const { expected, change } = asked;
  if (isMadeAlready(store, stored, asked)) return ok(null);
  if (!isSameVersion(expected, stored)) return failed(changedMeanwhile(expected, stored));
  const file = readPassageFile(stored.json, placeOf(stored.number));
  if (!file.ok) return file;
  const [nameBefore, textBefore] = [file.value.name, written(file.value)];
  const after = change(file.value);
  if (!after.ok) return after;
  const json = written(after.value);
  if (json === textBefore) return ok(null);
  const parts = await partsOf({ ...stored, json });
  if (!parts.ok) return parts;
  const { name } = parts.value.file;
  // A number behind the name is kept while the name stays.
  return ok({ name: name === nameBefore ? stored.name : name, json, parts: parts.value });
}

/** A button pressed twice sends its form twice: what is kept is what the second one asks for, made of the same version. */
function isMadeAlready({ documents }: Store, stored: StoredDocument, { expected, change }: ChangePassage): boolean {
  if (!isOneBefore(expected, stored)) return false;
  const text = documents.versionText(expected);
  if (!text.ok || text.value === null) return false;
  const before = readPassageFile(text.value, placeOf(stored.number));
  const after = before.ok ? change(before.value) : before;
  return after.ok && written(after.value) === stored.json;
}

const isOneBefore = (expected: DocumentVersion, stored: StoredDocument): boolean =>
  expected.number === stored.number && expected.version === stored.version - 1;

/** An earlier version of the document, checked as it would be today: a file it names may be gone; null: it came twice. */
async function earlier(
  store: Store,
  stored: StoredDocument,
  { expected, version }: BringBack,
): Promise<Result<NextText | null>> {
  const text = version < stored.version ? store.documents.versionText({ number: stored.number, version }) : ok(null);
  if (!text.ok) return text;
  if (isOneBefore(expected, stored) && version < expected.version && text.value === stored.json) return ok(null);
  if (!isSameVersion(expected, stored)) return failed(changedMeanwhile(expected, stored));
  if (text.value === null) return failed(noSuchVersion(stored, version));
  const parts = await partsOf({ ...stored, json: text.value });
  if (!parts.ok) return parts;
  const now = readPassageFile(stored.json, placeOf(stored.number));
  const { name } = parts.value.file;
  const isSameName = now.ok && now.value.name === name;
  return ok({ name: isSameName ? stored.name : name, json: text.value, parts: parts.value });
}

const written = (file: PassageFile): string => `${JSON.stringify(file, null, 2)}\n`;
