import { createServer, type Server } from 'node:http';
import { createApp } from './app.ts';
import { allowedHosts, type Config } from './config.ts';
import { keepPlan } from './keep-plan.ts';
import type { StartPlan } from './plan-run.ts';
import { planSummary } from './presenters/plan-summary.ts';
import type { PlanStanding } from './presenters/plan-standing.ts';
import { formatProblem, type Problem } from '../lib/result/index.ts';

export interface Outside {
  readonly config: Config;
  readonly startPlan: StartPlan;
  readonly nowEpochMs: () => number;
  readonly print: (line: string) => void;
  readonly printError: (line: string) => void;
}

/**
 * Listens first, prints the address, then makes the plan and prints its summary. Closing the server ends the planning.
 *
 * @returns the server once it listens, or null when it cannot; one line then says why
 */
export async function serve({ config, startPlan, nowEpochMs, print, printError }: Outside): Promise<Server | null> {
  const report = (error: unknown): void =>
    printError(error instanceof Error ? (error.stack ?? error.message) : String(error));
  let hosts: readonly string[] = config.allowedHosts;
  const keeper = keepPlan({
    start: startPlan,
    nowEpochMs,
    report,
    onEnd: (standing) => {
      if (standing.kind === 'ready' && standing.notRenewed === undefined) print(planSummary(standing.view));
      if (standing.kind === 'stopped') print('No plan: its making was stopped.');
      for (const problem of problemsOf(standing)) printError(formatProblem(problem));
    },
  });
  const app = createApp({ ...keeper, nowEpochMs, allowedHosts: () => hosts, report });
  // Timeouts of a reader who went away: 15 s for the headers, two minutes for the rest.
  const server = createServer({ headersTimeout: 15_000, requestTimeout: 120_000 }, app);
  const failure = await listening(server, config);
  if (failure !== null) {
    printError(cannotListen(failure, config));
    return null;
  }
  const address = server.address();
  // A free port was asked for with 0: what was given is known only now.
  const port = typeof address === 'object' && address !== null ? address.port : config.port;
  hosts = allowedHosts(config.host, port);
  print(`Slatch: http://${config.host.includes(':') ? `[${config.host}]` : config.host}:${port}/`);
  server.once('close', keeper.close);
  keeper.makePlan();
  return server;
}

function problemsOf(standing: PlanStanding): readonly Problem[] {
  if (standing.kind === 'failed') return standing.problems;
  return standing.kind === 'ready' ? (standing.notRenewed ?? []) : [];
}

const listening = (server: Server, { host, port }: Config): Promise<NodeJS.ErrnoException | null> =>
  new Promise((settle) => {
    server.once('error', settle);
    server.listen({ host, port }, () => settle(null));
  });

function cannotListen({ code, message }: NodeJS.ErrnoException, { host, port }: Config): string {
  if (code === 'EADDRINUSE') return `Port ${port} is taken; start with: npm start -- --port ${port + 1}`;
  if (code === 'EADDRNOTAVAIL') return `${host} is not an address of this machine; leave --host out to use 127.0.0.1`;
  return `Cannot listen on ${host}:${port}: ${message}`;
}
