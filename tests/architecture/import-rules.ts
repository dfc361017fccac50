import { builtinModules } from 'node:module';
import { allowedRooms, packageHomes, pureNodeModules, serverForScripts, viewsForScripts } from './rooms.ts';
import { importsOf, type Finding, type Import, type SourceFile } from './source-file.ts';

interface Edge extends Import {
  readonly from: string;
}

type Rule = (edge: Edge) => string | null;

const areaOf = (path: string): string => path.split('/')[0] ?? '';
const roomOf = (path: string): string => path.split('/')[1] ?? '';
const isBuiltin = (request: string): boolean => request.startsWith('node:') || builtinModules.includes(request);
const isPureHere = (request: string, from: string): boolean =>
  (pureNodeModules[request] ?? []).some((folder) => from.startsWith(folder));
const isDoor = (path: string): boolean => /^lib\/[^/]+\/index\.ts$/.test(path);

/** `d3-scale`, `@fontsource/b612`, `preact` of `preact/jsx-runtime`. */
const packageOf = (request: string): string =>
  request
    .split('/')
    .slice(0, request.startsWith('@') ? 2 : 1)
    .join('/');

const rules: Readonly<Record<string, Rule>> = {
  'nobody-imports-tests': ({ from, target }) =>
    target !== null && areaOf(target) === 'tests' && areaOf(from) !== 'tests'
      ? `${target} is a test file: move what you need out of tests/.`
      : null,

  'lib-imports-lib-only': ({ from, target }) =>
    areaOf(from) === 'lib' && target !== null && areaOf(target) !== 'lib'
      ? `lib must not know ${target}: take what you need as an argument.`
      : null,

  'lib-imports-no-node-module': ({ from, request }) =>
    areaOf(from) === 'lib' && isBuiltin(request) && !isPureHere(request, from)
      ? `lib must not use ${request}: read in server/ or scripts/ and pass the bytes or values in.`
      : null,

  'views-import-no-node-module': ({ from, request }) =>
    areaOf(from) === 'views' && isBuiltin(request)
      ? `views must not use ${request}: prepare the value in a presenter.`
      : null,

  'rooms-through-their-door': ({ from, target }) =>
    target !== null &&
    areaOf(target) === 'lib' &&
    areaOf(from) !== 'tests' &&
    !(areaOf(from) === 'lib' && roomOf(from) === roomOf(target)) &&
    !isDoor(target)
      ? `import lib/${roomOf(target)}/index.ts, not ${target}: re-export it there if it is meant for others.`
      : null,

  'rooms-only-as-listed': ({ from, target }) => {
    if (areaOf(from) !== 'lib' || target === null || areaOf(target) !== 'lib' || roomOf(from) === roomOf(target))
      return null;
    const allowed = allowedRooms[roomOf(from)];
    if (allowed === undefined) return `room ${roomOf(from)} is not in tests/architecture/rooms.ts: add it there.`;
    return allowed.includes(roomOf(target))
      ? null
      : `${roomOf(from)} must not import ${roomOf(target)}: pass the value in, or change tests/architecture/rooms.ts.`;
  },

  'views-know-types-only': ({ from, target, isTypeOnly }) => {
    if (areaOf(from) !== 'views' || target === null || areaOf(target) === 'views') return null;
    const isViewModel = isDoor(target) || target.startsWith('server/presenters/');
    return isViewModel && isTypeOnly
      ? null
      : `views must not import ${target}: only types of view models ("import type" from lib/*/index.ts or server/presenters/).`;
  },

  'server-imports-no-scripts': ({ from, target }) =>
    areaOf(from) === 'server' && target !== null && areaOf(target) === 'scripts'
      ? `server must not import ${target}: move the shared part to server/ or lib/.`
      : null,

  'scripts-import-stores-and-fetchers': ({ from, target }) =>
    areaOf(from) === 'scripts' &&
    target !== null &&
    ((areaOf(target) === 'views' && !viewsForScripts.some((allowed) => target === allowed)) ||
      (areaOf(target) === 'server' && !serverForScripts.some((allowed) => target.startsWith(allowed))))
      ? `scripts must not import ${target}: of the server only ${serverForScripts.join(', ')}, of the views ${viewsForScripts.join(', ')}.`
      : null,

  'one-home-per-package': ({ from, request, target }) => {
    if (target !== null || isBuiltin(request) || areaOf(from) === 'tests') return null;
    const homes = packageHomes[packageOf(request)];
    if (homes === undefined)
      return `package ${packageOf(request)} has no home: give it one in tests/architecture/rooms.ts.`;
    return homes.some((home) => from.startsWith(home))
      ? null
      : `package ${packageOf(request)} lives in ${homes.join(', ')}: use it through there.`;
  },

  'no-computed-import-in-lib': ({ from, isDynamic }) =>
    areaOf(from) === 'lib' && isDynamic ? 'lib must not import at run time: use a static import.' : null,
};

/** Every import that breaks the allow-list. */
export function importFindings(files: readonly SourceFile[]): readonly Finding[] {
  return files.flatMap((file) =>
    importsOf(file).flatMap((found) =>
      Object.entries(rules).flatMap(([rule, broken]) => {
        const say = broken({ ...found, from: file.path });
        return say === null ? [] : [{ rule, path: file.path, say }];
      }),
    ),
  );
}
