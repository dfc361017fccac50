import { randomUUID } from 'node:crypto';
import { createServer, type Server } from 'node:http';
import { createApp } from './app.ts';
import { type Access, type BoundAddress, cutSlowBodies, limitConnections } from './access/index.ts';
import { allowedHosts, hostText, LOOPBACK_NAMES } from './config.ts';
import type { Deps } from './deps.ts';
import type { Documents } from './documents/index.ts';
import { keepArchives, type PassageArchives } from './keep-archives.ts';
import type { ForecastKeeper } from './keep-forecasts.ts';
import { type PassageLog, planTextOf, type WrittenEntry } from './keep-log.ts';
import type { MessageKeeper } from './keep-messages.ts';
import type { KeptPlans } from './keep-plans.ts';
import type { KeptViews } from './keep-views.ts';
import { keepPlan, type PlanKeeper } from './keep-plan.ts';
import { keepTrial } from './keep-trial.ts';
import type { StartPlan } from './plan-run.ts';
import { planSummary } from './presenters/plan-summary.ts';
import type { PlanStanding } from './presenters/plan-standing.ts';
import { formatProblem, ok, type Problem, type Result } from '../lib/result/index.ts';

/** Where it is to listen. */
export interface Listening extends BoundAddress {
  /** The name the address was given under. */
  readonly host: string;
  /** 0: any free one. */
  readonly port: number;
}

export interface Outside {
  readonly config: Listening;
  /** Asks for the access key; null, on the loopback alone: none is asked for. */
  readonly access: Access | null;
  readonly documents: Documents;
  readonly log: PassageLog;
  readonly plans: KeptPlans;
  /** Absent: the plan that is shown is not kept for the next start. */
  readonly views?: KeptViews;
  readonly forecasts: ForecastKeeper;
  readonly messages: MessageKeeper;
  readonly startPlan: StartPlan;
  readonly nowEpochMs: () => number;
  readonly print: (line: string) => void;
  readonly printError: (line: string) => void;
  /** Told as soon as the server listens, and where. */
  readonly onListening?: (server: Server, url: string) => void;
}

/**
 * Takes the passage file over where the store has none of it, listens, prints the address, then makes the plan and prints
 * its summary. Closing the server ends the planning.
 *
 * @returns the server once it listens, or null when it cannot; one line then says why
 */
export async function serve(outside: Outside): Promise<Server | null> {
  const { config, access, documents, print, printError } = outside;
  if (!config.isLoopback && access === null) throw new Error('others can reach it, and it would ask for no key');
  let hosts: readonly string[] = [];
  const keeper = planKeeper(outside);
  const trials = trialKeeper(outside, keeper);
  const deps: Deps = {
    ...keeper,
    ...documents,
    ...trials,
    ...outside.forecasts,
    ...outside.messages,
    ...archives(outside, keeper),
    passageLog: outside.log.passageLog,
    planHistory: outside.plans.planHistory,
    planOfNumber: outside.plans.planOfNumber,
    ...changes(outside, keeper),
    formToken: randomUUID,
    nowEpochMs: outside.nowEpochMs,
    uptimeMs: () => performance.now(),
    access,
    allowedHosts: () => hosts,
    report: reportTo(printError),
  };
  const followed = await documents.followFile();
  const server = createServer(PATIENCE, createApp(deps));
  limitConnections(server);
  cutSlowBodies(server);
  const failure = await listening(server, config);
  if (failure !== null) {
    printError(cannotListen(failure, config));
    return null;
  }
  const address = server.address();
  // A free port was asked for with 0: what was given is known only now.
  const port = typeof address === 'object' && address !== null ? address.port : config.port;
  hosts = allowedHosts([config.host, config.address, ...(config.isLoopback ? LOOPBACK_NAMES : [])], port);
  const url = `http://${hostText(config.host)}:${port}/`;
  outside.onListening?.(server, url);
  print(`Slatch: ${url}`);
  if (!config.isLoopback) print(OTHERS_CAN);
  // Where there is no document either, the planner says the same.
  if (!followed.ok && documents.passageText().ok) for (const one of followed.problems) printError(formatProblem(one));
  server.once('close', keeper.close);
  server.once('close', trials.close);
  keeper.makePlan();
  return server;
}

/**
 * How long a line may be silent or a request take [ms]: 15 s for the head of a request, half an hour for all of it (400 MB
 * over a poor radio; slower than that is cut by `cutSlowBodies`), 10 s until the next.
 */
const PATIENCE = {
  headersTimeout: 15_000,
  requestTimeout: 30 * 60_000,
  keepAliveTimeout: 10_000,
  connectionsCheckingInterval: 3000,
};

const OTHERS_CAN =
  'Others on that network can reach it, and need the access key. What passes is not encrypted: they may be able to read along.';

const reportTo =
  (printError: (line: string) => void) =>
  (error: unknown): void =>
    printError(error instanceof Error ? (error.stack ?? error.message) : String(error));

const planKeeper = ({ documents, log, plans, views, startPlan, ...outside }: Outside): PlanKeeper => {
  const { nowEpochMs, print, printError } = outside;
  return keepPlan({
    passageText: () => planTextOf(documents, log),
    history: plans,
    ...(views === undefined ? {} : { views }),
    start: startPlan,
    nowEpochMs,
    report: reportTo(printError),
    onEnd: (standing) => {
      if (standing.kind === 'ready' && standing.notRenewed === undefined) print(planSummary(standing.view));
      if (standing.kind === 'stopped') print('No plan: its making was stopped.');
      for (const problem of problemsOf(standing)) printError(formatProblem(problem));
    },
  });
};

const trialKeeper = ({ documents, log, plans: history, ...outside }: Outside, plans: PlanKeeper) =>
  keepTrial({
    documents,
    passageText: () => planTextOf(documents, log),
    plans,
    start: outside.startPlan,
    history,
    nowEpochMs: outside.nowEpochMs,
    report: reportTo(outside.printError),
  });

/** A passage that was brought in is planned with its log. */
function archives({ documents, log, forecasts, nowEpochMs }: Outside, { renewPlan }: PlanKeeper): PassageArchives {
  const kept = keepArchives({ documents, log, forecasts, nowEpochMs });
  return {
    ...kept,
    bringInPassage: async (archive, formToken) => {
      const passage = await kept.bringInPassage(archive, formToken);
      // Where only its log broke off it is shown all the same.
      renewPlan();
      return passage;
    },
  };
}

type Changes = Pick<
  Deps,
  | 'makePlan'
  | 'savePassage'
  | 'bringBackVersion'
  | 'takeOverFile'
  | 'showDocument'
  | 'makePassage'
  | 'writeLog'
  | 'writeLogEntries'
>;

/** What changes the document or its log, and then has the plan made of what it has become. */
function changes({ documents, log }: Outside, keeper: PlanKeeper): Changes {
  const planned = async <T>(work: Promise<Result<T>>): Promise<Result<T>> => {
    const result = await work;
    if (result.ok) keeper.renewPlan();
    return result;
  };
  return {
    savePassage: (asked) => planned(documents.savePassage(asked)),
    bringBackVersion: (asked) => planned(documents.bringBackVersion(asked)),
    takeOverFile: (expected) => planned(documents.takeOverFile(expected)),
    makePassage: (made) => planned(documents.makePassage(made)),
    showDocument: (number) => planned(documents.showDocument(number)),
    writeLog: (entry) => planned(log.writeLog(entry)),
    writeLogEntries: async (entries) => {
      const written: WrittenEntry[] = [];
      for (const entry of entries) {
        // One after the other: they are numbered in this order.
        // oxlint-disable-next-line no-await-in-loop
        const one = await log.writeLog(entry);
        if (one.ok) written.push(one.value);
        if (!one.ok && written.length > 0) keeper.renewPlan();
        if (!one.ok) return one;
      }
      if (written.length > 0) keeper.renewPlan();
      return ok(written);
    },
    makePlan: async () => {
      // What is wrong with a changed file is said by its notice; the plan is made of what is there.
      await documents.followFile();
      keeper.makePlan();
    },
  };
}

function problemsOf(standing: PlanStanding): readonly Problem[] {
  if (standing.kind === 'failed') return standing.problems;
  return standing.kind === 'ready' ? [...(standing.notRenewed ?? []), ...(standing.notKept ?? [])] : [];
}

const listening = (server: Server, { address, port }: Listening): Promise<NodeJS.ErrnoException | null> =>
  new Promise((settle) => {
    server.once('error', settle);
    server.listen({ host: address, port }, () => settle(null));
  });

function cannotListen({ code, message }: NodeJS.ErrnoException, { host, port }: Listening): string {
  if (code === 'EADDRINUSE') return `Port ${port} is taken; start with: npm start -- --port ${port + 1}`;
  if (code === 'EADDRNOTAVAIL') return `${host} is not an address of this machine; leave --host out to use 127.0.0.1`;
  return `Cannot listen on ${host}:${port}: ${message}`;
}
