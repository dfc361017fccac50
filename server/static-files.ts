/** Everything a browser is sent besides pages: read once, packed once. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { extname, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { PRINT_SHEET, STYLE_SHEETS } from '../views/style-sheets.ts';

export interface StaticFile {
  readonly octets: Buffer;
  /** Packed by gzip; null: it would not become smaller. */
  readonly gzipped: Buffer | null;
  readonly type: string;
  /** Of the content; under an address that bears it the file never changes. */
  readonly version: string;
}

/** Files by their path, without the version. */
export type StaticFiles = ReadonlyMap<string, StaticFile>;

export const STYLES_PATH = '/static/slatch.css';
export const SCRIPT_PATH = '/static/htmx.min.js';
export const NIGHT_SCRIPT_PATH = '/static/night-button.js';
export const HOURS_SCRIPT_PATH = '/static/hour-reading.js';
const ICON_PATH = '/static/icon.svg';

const TYPES: Readonly<Record<string, string>> = {
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};

/** Font files served, by name: Latin subsets, SIL Open Font Licence 1.1. */
const FONTS = {
  'b612-latin-400-normal.woff2': '@fontsource/b612/files/b612-latin-400-normal.woff2',
  'b612-latin-700-normal.woff2': '@fontsource/b612/files/b612-latin-700-normal.woff2',
  'b612-mono-latin-400-normal.woff2': '@fontsource/b612-mono/files/b612-mono-latin-400-normal.woff2',
} as const;

const ownFolder = resolve(import.meta.dirname, '../views/static');
const { resolve: fileOf } = createRequire(import.meta.url);

let kept: StaticFiles | null = null;

/** Styles, script, pictures and fonts, all from this machine. What changes on disk is seen after a restart. */
export function staticFiles(): StaticFiles {
  kept ??= readFiles();
  return kept;
}

/** What the page that asks for the access key is dressed with; nothing of it is of the passage. */
export const isPublicFile = (path: string): boolean =>
  [STYLES_PATH, ICON_PATH, '/favicon.ico'].includes(path) || (path.startsWith('/fonts/') && staticFiles().has(path));

/** The address of a file, with its version. */
export function versionedPath(path: string): string {
  const file = staticFiles().get(path);
  if (file === undefined) throw new Error(`no file is served as ${path}`);
  return withVersion(path, file);
}

function readFiles(): StaticFiles {
  const files = new Map<string, StaticFile>();
  const add = (path: string, octets: Buffer): void => void files.set(path, staticFile(path, octets));
  for (const [name, request] of Object.entries(FONTS)) add(`/fonts/${name}`, readFileSync(fileOf(request)));
  for (const name of readdirSync(ownFolder))
    if (TYPES[extname(name)] !== undefined) add(`/static/${name}`, readFileSync(resolve(ownFolder, name)));
  add('/favicon.ico', readFileSync(resolve(ownFolder, 'icon.svg')));
  add(SCRIPT_PATH, readFileSync(fileOf('htmx.org/dist/htmx.min.js')));
  add(STYLES_PATH, Buffer.from(withVersions(allStyles(), files)));
  return files;
}

function staticFile(path: string, octets: Buffer): StaticFile {
  const gzipped = gzipSync(octets, { level: 9 });
  return {
    octets,
    gzipped: gzipped.length < octets.length ? gzipped : null,
    type: TYPES[extname(path)] ?? 'image/svg+xml',
    version: createHash('sha256').update(octets).digest('hex').slice(0, 16),
  };
}

/** The style sheets as one, so that a page asks once. */
function allStyles(): string {
  const textOf = (name: string): string => readFileSync(resolve(ownFolder, name), 'utf8');
  return `${STYLE_SHEETS.map(textOf).join('\n')}\n@media print {\n${textOf(PRINT_SHEET)}}\n`;
}

/** Addresses in a style sheet with their versions. */
const withVersions = (styles: string, files: StaticFiles): string =>
  styles.replaceAll(/url\((\/[^)]+)\)/g, (whole, path: string) => {
    const file = files.get(path);
    return file === undefined ? whole : `url(${withVersion(path, file)})`;
  });

const withVersion = (path: string, { version }: StaticFile): string => `${path}?v=${version}`;
