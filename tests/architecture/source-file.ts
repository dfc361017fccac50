import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { parseSync, type ParseResult } from 'oxc-parser';

export const projectFolder = resolve(import.meta.dirname, '../..');

/** One file of the tree, or a made-up one: `path` is relative to the project, with `/`. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** One broken rule and what to do about it. */
export interface Finding {
  readonly rule: string;
  readonly path: string;
  readonly say: string;
}

export interface Import {
  /** As written: `../geo/index.ts`, `node:fs`, `zod`. */
  readonly request: string;
  /** Path of the file in the project, or null for a package or a Node module. */
  readonly target: string | null;
  readonly isTypeOnly: boolean;
  readonly isDynamic: boolean;
}

/** A syntax-tree node, read only as far as the rules need. */
export interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

export const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string';

/** All files with one of these endings below the folders, in path order. */
export function readFiles(folders: readonly string[], endings: readonly string[]): readonly SourceFile[] {
  const paths = folders.flatMap((folder) => filesBelow(join(projectFolder, folder)));
  return paths
    .filter((path) => endings.some((ending) => path.endsWith(ending)))
    .map(readOnce)
    .toSorted((a, b) => (a.path < b.path ? -1 : 1));
}

/** The tree stays as it is while it is tested: each file is read, and so parsed, once. */
function readOnce(path: string): SourceFile {
  const known = readAlready.get(path);
  if (known !== undefined) return known;
  const file = { path: relative(projectFolder, path).split(sep).join('/'), text: readFileSync(path, 'utf8') };
  readAlready.set(path, file);
  return file;
}

const readAlready = new Map<string, SourceFile>();

/** The TypeScript of these top-level folders. */
export const readCode = (folders: readonly string[]): readonly SourceFile[] => readFiles(folders, ['.ts', '.tsx']);

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'node_modules' ? [] : filesBelow(path);
    return entry.isFile() ? [path] : [];
  });
}

const parsed = new WeakMap<SourceFile, ParseResult>();

function parse(file: SourceFile): ParseResult {
  const known = parsed.get(file);
  if (known !== undefined) return known;
  const result = parseSync(file.path, file.text);
  if (result.errors[0] !== undefined) throw new Error(`${file.path} cannot be parsed: ${result.errors[0].message}`);
  parsed.set(file, result);
  return result;
}

/** Static and dynamic imports and re-exports. */
export function importsOf(file: SourceFile): readonly Import[] {
  const { staticImports, staticExports, dynamicImports } = parse(file).module;
  const statics = staticImports.map(({ moduleRequest, entries }) => ({
    request: moduleRequest.value,
    isTypeOnly: entries.length > 0 && entries.every((entry) => entry.isType),
    isDynamic: false,
  }));
  const reExports = staticExports
    .flatMap(({ entries }) => entries)
    .flatMap(({ moduleRequest, isType }) =>
      moduleRequest === null ? [] : [{ request: moduleRequest.value, isTypeOnly: isType, isDynamic: false }],
    );
  const dynamics = dynamicImports.map(({ moduleRequest }) => ({
    request: file.text.slice(moduleRequest.start, moduleRequest.end).replace(/^['"`]|['"`]$/g, ''),
    isTypeOnly: false,
    isDynamic: true,
  }));
  return [...statics, ...reExports, ...dynamics].map((found) => ({ ...found, target: targetOf(file, found.request) }));
}

function targetOf(file: SourceFile, request: string): string | null {
  if (!request.startsWith('.')) return null;
  const folder = file.path.slice(0, file.path.lastIndexOf('/'));
  return relative(projectFolder, resolve(projectFolder, folder, request))
    .split(sep)
    .join('/');
}

/** Calls `visit` for every node of the file, parents first. */
export function walk(file: SourceFile, visit: (node: Node, parents: readonly Node[]) => void): void {
  const parents: Node[] = [];
  const enter = (node: Node): void => {
    visit(node, parents);
    parents.push(node);
    for (const child of childrenOf(node)) enter(child);
    parents.pop();
  };
  enter(parse(file).program as unknown as Node);
}

const childrenOf = (node: Node): Node[] =>
  Object.values(node)
    .flatMap((value) => (Array.isArray(value) ? (value as unknown[]) : [value]))
    .filter(isNode);

/** Line of an offset, counted from 1. */
export function lineAt(file: SourceFile, node: Node): number {
  const start = typeof node['start'] === 'number' ? node['start'] : 0;
  return file.text.slice(0, start).split('\n').length;
}

/** The findings as a test prints them. */
export const formatFindings = (findings: readonly Finding[]): string =>
  findings.map(({ rule, path, say }) => `${path}: ${rule}: ${say}`).join('\n');
