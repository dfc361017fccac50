import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { withInstallLock } from './install-lock.mjs';
import { inProject, runNpm } from './project.mjs';

/** Node that the locked packages need; package.json says the same under `engines`. */
const LEAST_NODE = [20, 19];

/** Installs the locked packages unless they are there; false, with a sentence on stderr, when that failed. */
export async function ensureInstalled() {
  if (!isNodeNewEnough()) {
    console.error(`Slatch needs Node ${LEAST_NODE.join('.')} or newer; this is ${process.versions.node}.`);
    return false;
  }
  const ready = isInstalled() || (await withInstallLock(async () => isInstalled() || install()));
  if (ready) linkOwnCommand();
  return ready;
}

function isNodeNewEnough() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  const [leastMajor, leastMinor] = LEAST_NODE;
  return major > leastMajor || (major === leastMajor && minor >= leastMinor);
}

const stampPath = inProject('node_modules', '.boot-stamp');

/** The lock file on this machine and this Node: what a finished installation is stamped with. */
function stampWanted() {
  const parts = [process.platform, process.arch, process.versions.modules];
  return createHash('sha256')
    .update(readFileSync(inProject('package-lock.json')))
    .update(parts.join())
    .digest('hex');
}

/** By stamp; without one, by comparing the lock file with what npm says it installed (it writes that last). */
function isInstalled() {
  if (existsSync(stampPath) && readFileSync(stampPath, 'utf8') === stampWanted()) return true;
  const isSame = isLockInstalled();
  if (isSame) writeFileSync(stampPath, stampWanted());
  return isSame;
}

function isLockInstalled() {
  const installedPath = inProject('node_modules', '.package-lock.json');
  if (!existsSync(installedPath)) return false;
  const wanted = packagesOf(inProject('package-lock.json'));
  const installed = packagesOf(installedPath);
  const isAsWanted = ([path, entry]) =>
    installed[path] === undefined
      ? entry.optional === true
      : installed[path].version === entry.version && installed[path].integrity === entry.integrity;
  return Object.entries(wanted).every(isAsWanted) && Object.keys(installed).every((path) => path in wanted);
}

function packagesOf(path) {
  try {
    const { '': _project, ...packages } = JSON.parse(readFileSync(path, 'utf8')).packages;
    return packages;
  } catch {
    return {};
  }
}

async function install() {
  console.error('Installing the packages once (npm ci) …');
  const args = ['ci', '--include=dev', '--no-audit', '--no-fund', '--prefer-offline', '--loglevel=error'];
  const code = await runNpm(args, { stdio: ['ignore', 2, 2], env: { ...process.env, NODE_ENV: '' } });
  if (code === 0) writeFileSync(stampPath, stampWanted());
  else
    console.error(
      'The packages could not be installed. This needs the npm registry once; after that Slatch works offline. ' +
        'Connect and run the same command again.',
    );
  return code === 0;
}

/** Puts our own command where `npx slatch` looks first, so that it never has to ask anything outside. */
function linkOwnCommand() {
  const folder = inProject('node_modules', '.bin');
  if (process.platform === 'win32' || existsSync(inProject('node_modules', '.bin', 'slatch'))) return;
  try {
    mkdirSync(folder, { recursive: true });
    symlinkSync('../../scripts/slatch.mjs', inProject('node_modules', '.bin', 'slatch'));
  } catch (error) {
    if (error.code !== 'EEXIST') console.error(`npx slatch is not available (${error.message}).`);
  }
}
