import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectFolder } from './source-file.ts';

export interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly scripts: Readonly<Record<string, string>>;
  readonly bin: Readonly<Record<string, string>>;
}

export const readRootFile = (name: string): string => readFileSync(join(projectFolder, name), 'utf8');

export const readManifest = (): Manifest => JSON.parse(readRootFile('package.json')) as Manifest;
