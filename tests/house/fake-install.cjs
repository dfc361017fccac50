/**
 * What the stand-in for npm installs: a vitest that reports what FAKE_REPORT says, and tsx, where REAL_TSX is set; else one
 * that does nothing, which is enough for plain JavaScript and takes no time.
 */
const { copyFileSync, mkdirSync, rmSync, symlinkSync, writeFileSync } = require('node:fs');
const { dirname, join } = require('node:path');

const VITEST = `
import { writeFileSync } from 'node:fs';
const path = process.argv.find((argument) => argument.startsWith('--outputFile.json='))?.split('=')[1];
writeFileSync('vitest-arguments.txt', process.argv.slice(2).join(' '));
if (process.env.FAKE_REPORT) writeFileSync(path, process.env.FAKE_REPORT);
process.exitCode = Number(process.env.FAKE_VITEST_CODE ?? 0);
`;

/** Begins an installation as npm does: what was there is gone. */
function beginInstall(project) {
  rmSync(join(project, 'node_modules'), { recursive: true, force: true });
  mkdirSync(join(project, 'node_modules', 'vitest'), { recursive: true });
}

function endInstall(project) {
  const modules = join(project, 'node_modules');
  if (process.env.REAL_TSX) symlinkSync(dirname(require.resolve('tsx/package.json')), join(modules, 'tsx'));
  else writeStandIn(join(modules, 'tsx'));
  writeFileSync(join(modules, 'vitest', 'vitest.mjs'), VITEST);
  copyFileSync(join(project, 'package-lock.json'), join(modules, '.package-lock.json'));
}

function writeStandIn(folder) {
  mkdirSync(folder);
  writeFileSync(join(folder, 'package.json'), '{"type":"module","exports":{"./esm/api":"./api.js"}}');
  writeFileSync(join(folder, 'api.js'), 'export const register = () => undefined;\n');
}

module.exports = { beginInstall, endInstall };
