#!/usr/bin/env node
/** `slatch` on the command line: hands over to slatch.ts once the packages are there. */
import { runFile } from './set-up/run-file.mjs';

try {
  await import('tsx/esm/api');
} catch {
  console.error('Slatch is not set up yet: run "npm start" or "npm test" once in its folder, then try again.');
  process.exit(1);
}
await runFile('scripts/slatch.ts', process.argv.slice(2));
