/**
 * Stands in for npm in tests of the set-up: notes each call in `npm-calls.txt`, installs by linking tsx and a vitest
 * that reports what FAKE_REPORT says, and fails where FAKE_NPM asks for it.
 */
const { appendFileSync, mkdirSync, rmSync, symlinkSync, writeFileSync, copyFileSync } = require('node:fs');
const { dirname, join } = require('node:path');

const VITEST = `
import { writeFileSync } from 'node:fs';
const path = process.argv.find((argument) => argument.startsWith('--outputFile.json='))?.split('=')[1];
writeFileSync('vitest-arguments.txt', process.argv.slice(2).join(' '));
if (process.env.FAKE_REPORT) writeFileSync(path, process.env.FAKE_REPORT);
process.exitCode = Number(process.env.FAKE_VITEST_CODE ?? 0);
`;

function install() {
  rmSync('node_modules', { recursive: true, force: true });
  mkdirSync(join('node_modules', 'vitest'), { recursive: true });
  if (process.env.FAKE_NPM === 'fail') process.exit(1);
  if (process.env.FAKE_NPM === 'die') process.kill(process.pid, 'SIGKILL');
  symlinkSync(dirname(require.resolve('tsx/package.json')), join('node_modules', 'tsx'));
  writeFileSync(join('node_modules', 'vitest', 'vitest.mjs'), VITEST);
  copyFileSync('package-lock.json', join('node_modules', '.package-lock.json'));
}

const [command, ...rest] = process.argv.slice(2);
appendFileSync('npm-calls.txt', `${[command, ...rest].join(' ')} NODE_ENV=${process.env.NODE_ENV}\n`);
const delayMs = Number(process.env.FAKE_NPM_MS ?? 0);
setTimeout(() => {
  if (command === 'ci') install();
  else if (process.env.FAKE_FAIL === rest.at(-1)) process.exitCode = 3;
}, delayMs);
