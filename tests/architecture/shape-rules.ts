import { allowedRooms } from './rooms.ts';
import type { Finding, SourceFile } from './source-file.ts';

const MOST_LINES = 400;
const forbiddenNames = ['utils', 'helpers', 'common', 'types', 'misc'];

const lineCount = (text: string): number => text.split('\n').length - (text.endsWith('\n') ? 1 : 0);

/** Files that outgrew the limit; pure data is named `*.table.ts` and may be as long as it is. */
export const sizeFindings = (files: readonly SourceFile[]): readonly Finding[] =>
  files
    .filter((file) => !/\.table\.tsx?$/.test(file.path) && lineCount(file.text) > MOST_LINES)
    .map((file) => ({
      rule: 'file-size',
      path: file.path,
      say: `${lineCount(file.text)} lines, ${MOST_LINES} at most: split it by idea; data goes to a *.table.ts.`,
    }));

/** File names: kebab-case, and none that says nothing. */
export const nameFindings = (files: readonly SourceFile[]): readonly Finding[] =>
  files.flatMap(({ path }) => {
    const stem = (path.split('/').at(-1) ?? '').replace(/(\.table|\.test|\.config)?\.tsx?$/, '');
    const isKebab = /^[a-z0-9]+(-[a-z0-9]+)*$/.test(stem);
    const say = isKebab ? `${stem} says nothing: name the one thing it holds.` : 'name it in kebab-case.';
    return isKebab && !forbiddenNames.includes(stem) ? [] : [{ rule: 'file-name', path, say }];
  });

/** Rooms of lib without their door or their README, or missing from the table. */
export function roomFindings(paths: readonly string[]): readonly Finding[] {
  const rooms = new Set(paths.flatMap((path) => /^lib\/([^/]+)\//.exec(path)?.[1] ?? []));
  return [...rooms].flatMap((room) => [
    ...['index.ts', 'README.md']
      .filter((name) => !paths.includes(`lib/${room}/${name}`))
      .map((name) => ({ rule: 'room-shape', path: `lib/${room}`, say: `write ${name}.` })),
    ...(room in allowedRooms
      ? []
      : [{ rule: 'room-shape', path: `lib/${room}`, say: 'add the room to tests/architecture/rooms.ts.' }]),
  ]);
}

/** Doors that hold code: an `index.ts` beside other files only re-exports. */
export const doorFindings = (files: readonly SourceFile[]): readonly Finding[] =>
  files.flatMap(({ path, text }) => {
    const folder = /^(lib\/[^/]+\/)index\.ts$/.exec(path)?.[1];
    const isAlone = files.filter((file) => folder !== undefined && file.path.startsWith(folder)).length === 1;
    const code = text
      .replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')
      .replace(/export\s+(type\s+)?(\{[^}]*\}|\*)\s*from\s*'[^']*';/g, '');
    return folder === undefined || isAlone || code.trim() === ''
      ? []
      : [{ rule: 'door-only', path, say: 'an index.ts only re-exports: move the code to a file of its own.' }];
  });
