import { readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { inProject } from './project.mjs';

const lockPath = inProject('.boot-lock');
const LONGEST_WAIT_MS = 15 * 60_000;
/** A lock file without a number in it is being written, unless it is this old. */
const LONGEST_WRITE_MS = 10_000;

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** Runs `work` as the only one who installs in this folder; waits for another who does, takes over from a dead one. */
export async function withInstallLock(work) {
  if (!(await takeLock())) return false;
  try {
    return await work();
  } finally {
    rmSync(lockPath, { force: true });
  }
}

async function takeLock() {
  let isFirstTry = true;
  for (const start = Date.now(); Date.now() - start < LONGEST_WAIT_MS; await pause(200)) {
    if (tryLock()) return true;
    if (removeStaleLock()) continue;
    if (isFirstTry) console.error('Waiting for another installation in this folder …');
    isFirstTry = false;
  }
  console.error('Another installation has not finished for 15 minutes. If none is running, delete .boot-lock.');
  return false;
}

function tryLock() {
  try {
    writeFileSync(lockPath, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    throw error;
  }
}

/** Moves a dead holder's lock aside first, so that of two who see it only one removes it. */
function removeStaleLock() {
  if (!isStale(lockPath)) return false;
  const aside = `${lockPath}.${process.pid}`;
  try {
    renameSync(lockPath, aside);
    if (!isStale(aside)) renameSync(aside, lockPath);
  } catch {
    // Someone else was quicker.
  }
  rmSync(aside, { force: true });
  return true;
}

function isStale(path) {
  try {
    const text = readFileSync(path, 'utf8');
    return text === '' ? Date.now() - statSync(path).mtimeMs > LONGEST_WRITE_MS : !isAlive(Number(text));
  } catch {
    return false;
  }
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}
