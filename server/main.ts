/** The program behind `npm start`: the only reader of arguments, environment and clock. */
import { formatProblem, failed } from '../lib/result/index.ts';
import { readConfig, USAGE } from './config.ts';
import type { MakePlan } from './deps.ts';
import { serve } from './serve.ts';

const plan: MakePlan = async () =>
  failed({
    code: 'plan.no-engine',
    where: 'server/main.ts',
    what: 'This version shows pages but does not make plans yet.',
    expected: 'the planning engine behind the pages',
    remedy: 'Update to a version that has it.',
  });

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const complain = (line: string): void => void process.stderr.write(`${line}\n`);

const config = readConfig({ argv: process.argv.slice(2), env: process.env });
if (config.ok) {
  const outside = { config: config.value, plan, nowEpochMs: () => Date.now(), print: say, printError: complain };
  const server = await serve(outside);
  if (server === null) process.exitCode = 1;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => {
      server?.close();
      server?.closeAllConnections();
    });
  }
} else {
  for (const problem of config.problems) complain(formatProblem(problem));
  complain(USAGE);
  process.exitCode = 2;
}
