import { stat } from 'node:fs/promises';
import path from 'node:path';
import { ok, type Result } from '../../lib/result/index.ts';
import { checkPassage, type PassageText, readPassageText } from '../stores/passage-files.ts';
import { textHash } from '../stores/index.ts';
import type { FileState } from './document.ts';

/** The file a passage is taken over from. It is only ever read. */
export interface SourceFile {
  readonly file: string;
  readonly folder: string;
  /** Its text, checked, and the name of the passage in it; or every problem. */
  readonly read: () => Promise<Result<PassageText & { readonly name: string }>>;
  /** The file as it is now against a text taken over earlier. */
  readonly stateAgainst: (takenHash: string) => Promise<FileState>;
}

/** Reads the file only where its stamp says that it may have changed. */
export function sourceFile(file: string): SourceFile {
  let seen: { readonly stamp: string; readonly hash: string } | null = null;

  const hashNow = async (): Promise<string | null> => {
    const stamp = await stampOf(file);
    if (stamp === null) return null;
    if (seen?.stamp === stamp) return seen.hash;
    const text = await readPassageText(file);
    if (!text.ok) return null;
    seen = { stamp, hash: textHash(withoutMark(text.value.text)) };
    return seen.hash;
  };

  return {
    file,
    folder: path.dirname(file),
    read: async () => {
      const read = await readPassageText(file);
      if (!read.ok) return read;
      const text = { ...read.value, text: withoutMark(read.value.text) };
      const passage = await checkPassage(text);
      return passage.ok ? ok({ ...text, name: passage.value.name }) : passage;
    },
    stateAgainst: async (takenHash) => {
      const hash = await hashNow();
      if (hash === null) return 'unreadable';
      return hash === takenHash ? 'same' : 'changed';
    },
  };
}

/** Size and times of a file; null: it cannot be looked at. */
async function stampOf(file: string): Promise<string | null> {
  try {
    const { size, mtimeMs, ctimeMs, ino } = await stat(file);
    return [size, mtimeMs, ctimeMs, ino].join(' ');
  } catch {
    return null;
  }
}

/** Without the byte order mark some editors put first: the database takes none. */
const withoutMark = (text: string): string => text.replace(/^\uFEFF/, '');
