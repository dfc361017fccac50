/** The program behind `npm start`: the only reader of arguments, environment and clock. */
import { fileURLToPath } from 'node:url';
import { formatProblem } from '../lib/result/index.ts';
import { readConfig, USAGE } from './config.ts';
import { planOnThread } from './planning.ts';
import { serve } from './serve.ts';

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const complain = (line: string): void => void process.stderr.write(`${line}\n`);

const config = readConfig({ argv: process.argv.slice(2), env: process.env });
if (config.ok) {
  const nowEpochMs = (): number => Date.now();
  const demo = fileURLToPath(new URL('../sample-forecasts/demo-passage.json', import.meta.url));
  const startPlan = planOnThread(config.value.passageFile ?? demo, nowEpochMs);
  const outside = { config: config.value, startPlan, nowEpochMs, print: say, printError: complain };
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
