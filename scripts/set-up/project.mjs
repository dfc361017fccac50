import { spawn } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));

/** Folder of the project, wherever the command is called from. */
export const projectFolder = resolve(here, '../..');

export const inProject = (...parts) => join(projectFolder, ...parts);

/**
 * Runs a program in the project folder and passes our own end signals on to it.
 *
 * @returns its exit code; 1 when it could not start or was killed
 */
export function runProgram(file, args, options = {}) {
  return new Promise((done) => {
    const child = spawn(file, args, { cwd: projectFolder, stdio: 'inherit', ...options });
    const passOn = (signal) => child.kill(signal);
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
    for (const signal of signals) process.on(signal, passOn);
    const finish = (code) => {
      for (const signal of signals) process.off(signal, passOn);
      done(code ?? 1);
    };
    child.on('error', (error) => {
      console.error(`${file} could not be started: ${error.message}`);
      finish(1);
    });
    child.on('close', finish);
  });
}

/** Runs npm: the one that called us, else the one on the path. */
export function runNpm(args, options = {}) {
  const npm = process.env.npm_execpath;
  return npm?.endsWith('js') === true
    ? runProgram(process.execPath, [npm, ...args], options)
    : runProgram(process.platform === 'win32' ? 'npm.cmd' : 'npm', args, options);
}
