import { ok, type Result } from '../result/index.ts';
import { readShape } from '../shape/index.ts';
import { parseJson } from './json-text.ts';
import { passageFile, type PassageFile } from './passage-file.ts';

/**
 * The file itself, to be changed and written again: keys in the order written, nothing filled in. Its shape is checked,
 * what it refers to is not: that is for `parsePassage`.
 *
 * @param where put before the path in every problem
 */
export function readPassageFile(text: string, where: string): Result<PassageFile> {
  const json = parseJson(text, where);
  if (!json.ok) return json;
  // As it was written: what the schema gives back has its keys in the order of the schema.
  return isPassageFile(json.value) ? ok(json.value) : readShape(passageFile, json.value, { where, path: [] });
}

const isPassageFile = (value: unknown): value is PassageFile => passageFile.safeParse(value).success;
