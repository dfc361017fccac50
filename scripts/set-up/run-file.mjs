import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { inProject, projectFolder } from './project.mjs';

/** Runs a TypeScript file of the project in this process; its exit code is whatever it sets. */
export async function runFile(file, args) {
  const { register } = await import('tsx/esm/api');
  // Named, because tsx looks for it where the command is called, which need not be here.
  register({ tsconfig: inProject('tsconfig.json') });
  const path = resolve(projectFolder, file);
  process.argv = [process.execPath, path, ...args];
  await import(pathToFileURL(path).href);
  return process.exitCode;
}
