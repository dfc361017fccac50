/**
 * What the stand-in for npm installs: a vitest that reports what FAKE_REPORT says, and tsx, where REAL_TSX is set; else one
 * that does nothing, which is enough for plain JavaScript and takes no time.
 */
const { copyFileSync, mkdirSync, rmSync, symlinkSync, writeFileSync } = require('node:fs');
const path = require('node:path');

const VITEST = `
import { writeFileSync } from 'node:fs';
const path = process.argv.find((argument) => argument.startsWith('--outputFile.json='))?.split('=')[1];
writeFileSync('vitest-arguments.txt', process.argv.slice(2).join(' '));
if (process.env.FAKE_REPORT) writeFileSync(path, process.env.FAKE_REPORT);
process.exitCode = Number(process.env.FAKE_VITEST_CODE ?? 0);
`;

/** Begins an installation as npm does: what was there is gone. */
function beginInstall(project) {
  rmSync(path.join(project, 'node_modules'), { recursive: true, force: true });
  mkdirSync(path.join(project, 'node_modules', 'vitest'), { recursive: true });
}

function endInstall(project) {
  const modules = path.join(project, 'node_modules');
  if (process.env.REAL_TSX) symlinkSync(path.dirname(require.resolve('tsx/package.json')), path.join(modules, 'tsx'));
  else writeStandIn(path.join(modules, 'tsx'));
  writeFileSync(path.join(modules, 'vitest', 'vitest.mjs'), VITEST);
  copyFileSync(path.join(project, 'package-lock.json'), path.join(modules, '.package-lock.json'));
}

function writeStandIn(folder) {
  mkdirSync(folder);
  writeFileSync(path.join(folder, 'package.json'), '{"type":"module","exports":{"./esm/api":"./api.js"}}');
  writeFileSync(path.join(folder, 'api.js'), 'export const register = () => undefined;\n');
}

module.exports = { beginInstall, endInstall };
