import { runNpm } from './project.mjs';
import { runTests } from './run-tests.mjs';

/** Quick ones first; the tests include the architecture. */
const steps = ['typecheck', 'lint', 'format:check', 'knip'];

/** Runs every check in turn and stops at the first that fails, with its name. */
export async function runChecks(testArguments) {
  for (const step of steps) {
    const code = await runNamed(step, () => runNpm(['run', '--silent', step]));
    if (code !== 0) return code;
  }
  return runNamed('tests', () => runTests(testArguments));
}

async function runNamed(name, run) {
  console.log(`check: ${name}`);
  const code = await run();
  if (code !== 0) console.error(`check: ${name} failed`);
  return code;
}
