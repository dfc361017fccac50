/** The program behind `npm start`: the only reader of arguments, environment and clock. */
import { homedir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { failed, formatProblem, ok, type Problem, type Result } from '../lib/result/index.ts';
import { type Access, boundAddress, keepAccess, keyMissing, readAccessKey, stopping } from './access/index.ts';
import { landOfTheEarth } from './coastline.ts';
import { type Config, readConfig, USAGE } from './config.ts';
import { keepDocuments } from './documents/index.ts';
import { keepForecasts } from './keep-forecasts.ts';
import { keepLog } from './keep-log.ts';
import { keepMessages } from './keep-messages.ts';
import { keepPlans } from './keep-plans.ts';
import { keepViews } from './keep-views.ts';
import { openServerStore } from './open-server-store.ts';
import { planInOwnProcess } from './planning.ts';
import { programPrint } from './program-print.ts';
import { type Listening, serve } from './serve.ts';
import { readMessageKey } from './stores/message-key.ts';

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const complain = (line: string): void => void process.stderr.write(`${line}\n`);
const tell = (problems: readonly Problem[]): void => {
  for (const problem of problems) complain(formatProblem(problem));
};

/** How long the process may go on after everything is kept and closed [ms]. */
const LEAVE_MS = 1000;

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
  const doors = await doorsOf(given);
  if (!key.ok || !doors.ok) {
    tell([key, doors].flatMap((read) => (read.ok ? [] : read.problems)));
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
  const forecasts = keepForecasts({ store });
  const documents = keepDocuments({ store, file: given.passageFile ?? demo, nowEpochMs });
  const server = await serve({
    ...doors.value,
    documents,
    log: keepLog({ store, documents, nowEpochMs }),
    plans: keepPlans({ store, documents, nowEpochMs }),
    views: keepViews({ store, programPrint }),
    forecasts,
    messages: keepMessages({ store, documents, keyOctets: key.value, nowEpochMs }),
    startPlan: planInOwnProcess(nowEpochMs),
    nowEpochMs,
    print: say,
    printError: complain,
    onListening: (listening, url) => {
      // Before it leaves word of itself: what ends it from now on takes that word back.
      const stop = stopping(listening);
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, stop);
      note(`${url}, process ${process.pid}`);
    },
  });
  if (server === null) {
    close();
    return 1;
  }
  server.once('close', () => {
    forecasts.cancelFetch();
    close();
    // Whatever else still waits for the network is not waited for.
    setTimeout(() => process.exit(), LEAVE_MS).unref();
  });
  setImmediate(readLandAhead);
  return 0;
}

interface Doors {
  readonly config: Listening;
  readonly access: Access | null;
}

/** Where it listens and who may come in: none that others can reach without a key. */
async function doorsOf({ host, port, accessKeyFile }: Config): Promise<Result<Doors>> {
  const bound = await boundAddress(host);
  const key = accessKeyFile === null ? ok(null) : readAccessKey(accessKeyFile, process.platform);
  if (!bound.ok || !key.ok) {
    const [first, ...others] = [bound, key].flatMap((read) => (read.ok ? [] : read.problems));
    if (first === undefined) throw new Error('refused without a problem');
    return failed(first, ...others);
  }
  if (key.value === null && !bound.value.isLoopback) return failed(keyMissing(host));
  const nowMs = (): number => performance.now();
  const access = key.value === null ? null : keepAccess({ key: key.value, nowMs, print: say });
  return ok({ config: { ...bound.value, host, port }, access });
}

/** The first map would wait for it, half a second on a slow machine. */
function readLandAhead(): void {
  try {
    landOfTheEarth();
  } catch (error) {
    complain(`The coastline cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
}
