/**
 * The one command behind `npm start`, `npm test` and `npm run check`: installs what is missing, then does the work.
 *
 * Plain JavaScript, because it runs before anything is installed. The check sits here and not in pre-scripts, which
 * npm skips without a word where `ignore-scripts` is set.
 *
 *   node scripts/bootstrap.mjs start|test|check [arguments for the program or for vitest]
 *   node scripts/bootstrap.mjs run FILE [arguments]
 */
import { ensureInstalled } from './set-up/install.mjs';
import { runChecks } from './set-up/checks.mjs';
import { runFile } from './set-up/run-file.mjs';
import { runTests } from './set-up/run-tests.mjs';

const USAGE = 'Use: node scripts/bootstrap.mjs start | test | check | run FILE [arguments]';

const commands = {
  start: (rest) => runFile('server/main.ts', rest),
  test: runTests,
  check: runChecks,
  run: ([file, ...rest]) => (file === undefined ? usage() : runFile(file, rest)),
};

function usage() {
  console.error(USAGE);
  return 2;
}

const [name, ...rest] = process.argv.slice(2);
const command = Object.hasOwn(commands, name ?? '') ? commands[name] : undefined;
if (command === undefined) process.exitCode = usage();
else process.exitCode = (await ensureInstalled()) ? await command(rest) : 1;
