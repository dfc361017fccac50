/** The program behind `npm start`: the only reader of arguments, environment and clock. */
import { homedir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { formatProblem, ok, type Problem } from '../lib/result/index.ts';
import { landOfTheEarth } from './coastline.ts';
import { type Config, readConfig, USAGE } from './config.ts';
import { keepDocuments } from './documents/index.ts';
import { keepForecasts } from './keep-forecasts.ts';
import { keepLog } from './keep-log.ts';
import { keepMessages } from './keep-messages.ts';
import { keepPlans } from './keep-plans.ts';
import { keepViews } from './keep-views.ts';
import { openServerStore } from './open-server-store.ts';
import { planOnThread } from './planning.ts';
import { programPrint } from './program-print.ts';
import { serve } from './serve.ts';
import { readMessageKey } from './stores/message-key.ts';

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const complain = (line: string): void => void process.stderr.write(`${line}\n`);
const tell = (problems: readonly Problem[]): void => {
  for (const problem of problems) complain(formatProblem(problem));
};

const machine = { platform: process.platform, homeFolder: homedir() };
const config = readConfig({ argv: process.argv.slice(2), env: process.env, machine });
if (config.ok) process.exitCode = await run(config.value);
else {
  tell(config.problems);
  complain(USAGE);
  process.exitCode = 2;
}

/** Starts the server; it then runs until a signal ends it. */
async function run(given: Config): Promise<number> {
  const key = given.messageKeyFile === null ? ok(null) : readMessageKey(given.messageKeyFile);
  if (!key.ok) {
    tell(key.problems);
    return 1;
  }
  const opened = openServerStore(given.storeFolder);
  if (!opened.ok) {
    tell(opened.problems);
    return 1;
  }
  const { store, note, close } = opened.value;
  const nowEpochMs = (): number => Date.now();
  const demo = fileURLToPath(new URL('../sample-forecasts/demo-passage.json', import.meta.url));
  const documents = keepDocuments({ store, file: given.passageFile ?? demo, nowEpochMs });
  const server = await serve({
    config: given,
    documents,
    log: keepLog({ store, documents, nowEpochMs }),
    plans: keepPlans({ store, documents, nowEpochMs }),
    views: keepViews({ store, programPrint }),
    forecasts: keepForecasts({ store }),
    messages: keepMessages({ store, documents, keyOctets: key.value, nowEpochMs }),
    startPlan: planOnThread(nowEpochMs),
    nowEpochMs,
    print: say,
    printError: complain,
    onAddress: (url) => note(`${url}, process ${process.pid}`),
  });
  if (server === null) {
    close();
    return 1;
  }
  server.once('close', close);
  setImmediate(readLandAhead);
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => {
      server.close();
      server.closeAllConnections();
    });
  }
  return 0;
}

/** The first map would wait for it, half a second on a slow machine. */
function readLandAhead(): void {
  try {
    landOfTheEarth();
  } catch (error) {
    complain(`The coastline cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
}
