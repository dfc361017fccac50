/** Which passages are to be planned: files as given, and those of folders. */
import { readdir, readFile, stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import type { Problem } from '../../../lib/result/index.ts';
import { FILE_ENDINGS } from './file-names.ts';

/** A passage to plan. */
export interface FoundPassage {
  /** Of the file without `.json`; what is written for it is named by it. */
  readonly name: string;
  readonly file: string;
}

/** What was found under the names given. */
export interface FoundPassages {
  /** By name, so that the order of the arguments and of the folder does not count. */
  readonly passages: readonly FoundPassage[];
  /** JSON files of folders that are no passages. */
  readonly passedOver: readonly string[];
  /** `file.unreadable`, `plan-many.same-name`, `plan-many.no-passage`. */
  readonly problems: readonly Problem[];
}

/**
 * Finds the passages. A file given by its own name is always taken; of a folder every `*.json` that is a passage by its
 * key `slatch` or that cannot be read as JSON (it may be a passage torn off), but nothing this command wrote.
 */
export async function findPassages(names: readonly string[]): Promise<FoundPassages> {
  const looked = await Promise.all(names.map(lookAt));
  const files = new Map(looked.flatMap(({ files: some }) => some.map((file) => [resolve(file), file] as const)));
  const passages = [...files.values()]
    .map((file) => ({ name: basename(file).replace(/\.json$/i, ''), file }))
    .toSorted((a, b) => compare(a.name, b.name) || compare(a.file, b.file));
  const unreadable = looked.flatMap(({ problems }) => problems);
  const none = passages.length === 0 && unreadable.length === 0 ? [noPassage(names)] : [];
  return {
    passages,
    passedOver: looked.flatMap(({ passedOver }) => passedOver).toSorted(compare),
    problems: [...unreadable, ...sameNames(passages), ...none],
  };
}

/** By code units: no language of the machine has a say. */
const compare = (a: string, b: string): number => Number(a > b) - Number(a < b);

interface Looked {
  readonly files: readonly string[];
  readonly passedOver: readonly string[];
  readonly problems: readonly Problem[];
}

async function lookAt(name: string): Promise<Looked> {
  try {
    if (!(await stat(name)).isDirectory()) return { files: [name], passedOver: [], problems: [] };
    const inFolder = (await readdir(name)).filter(isInput).map((file) => join(name, file));
    const isPassage = await Promise.all(inFolder.map(mayBePassage));
    return {
      files: inFolder.filter((_, i) => isPassage[i] === true),
      passedOver: inFolder.filter((_, i) => isPassage[i] !== true),
      problems: [],
    };
  } catch (error) {
    return { files: [], passedOver: [], problems: [unreadable(name, error)] };
  }
}

const isInput = (file: string): boolean =>
  /^[^.].*\.json$/i.test(file) && !Object.values(FILE_ENDINGS).some((ending) => file.endsWith(ending));

async function mayBePassage(file: string): Promise<boolean> {
  try {
    const json: unknown = JSON.parse(await readFile(file, 'utf8'));
    return typeof json === 'object' && json !== null && 'slatch' in json;
  } catch {
    return true;
  }
}

function sameNames(passages: readonly FoundPassage[]): Problem[] {
  return passages.flatMap(({ name, file }, i) => {
    const before = passages[i - 1];
    if (before?.name !== name) return [];
    return [
      {
        code: 'plan-many.same-name',
        where: file,
        what: `"${before.file}" has the same name, and both plans would be ${name}${FILE_ENDINGS.plan}.`,
        expected: 'a name of its own for each passage',
        remedy: 'Rename one of the two, or plan them into two folders.',
      },
    ];
  });
}

const unreadable = (name: string, error: unknown): Problem => ({
  code: 'file.unreadable',
  where: name,
  what: `It cannot be read: ${error instanceof Error ? error.message : String(error)}.`,
  expected: 'a passage file, or a folder of passage files',
  remedy: 'Check the name and the folder.',
});

const noPassage = (names: readonly string[]): Problem => ({
  code: 'plan-many.no-passage',
  where: names.join(', '),
  what: 'There is no passage file in it.',
  expected: 'at least one JSON file with the key "slatch"',
  remedy: 'Name the folder in which the passage files lie.',
});
