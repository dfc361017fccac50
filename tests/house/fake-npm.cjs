/**
 * Stands in for npm in tests of the set-up: notes each call in `npm-calls.txt`, installs what `fake-install.cjs` has, and
 * fails where FAKE_NPM asks for it.
 */
const { appendFileSync } = require('node:fs');
const { beginInstall, endInstall } = require('./fake-install.cjs');

function install() {
  beginInstall('.');
  if (process.env.FAKE_NPM === 'fail') process.exit(1);
  if (process.env.FAKE_NPM === 'die') process.kill(process.pid, 'SIGKILL');
  endInstall('.');
}

const [command, ...rest] = process.argv.slice(2);
appendFileSync('npm-calls.txt', `${[command, ...rest].join(' ')} NODE_ENV=${process.env.NODE_ENV}\n`);
const delayMs = Number(process.env.FAKE_NPM_MS ?? 0);
setTimeout(() => {
  if (command === 'ci') install();
  else if (process.env.FAKE_FAIL === rest.at(-1)) process.exitCode = 3;
}, delayMs);
