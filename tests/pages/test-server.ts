import { createServer, request as httpRequest, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createApp } from '../../server/app.ts';
import type { Access } from '../../server/access/index.ts';
import { keepArchives } from '../../server/keep-archives.ts';
import type { Deps, PlanStanding } from '../../server/deps.ts';
import type { PlanReady } from '../../server/presenters/plan-standing.ts';
import { failed, ok } from '../../lib/result/index.ts';
import { digestAnswer } from './fixture-digest.ts';
import { picture } from './fixture-plan.ts';
import { lookAnswer, view, windowsAnswer } from './fixture-windows.ts';
import { testDocuments, type TestDocuments } from './test-documents.ts';
import { testTrials, type TestTrials } from './test-trials.ts';

export const readyStanding: PlanReady = { kind: 'ready', view };

export interface TestServer {
  readonly url: string;
  readonly host: string;
  readonly reported: readonly unknown[];
  /** What was asked of the planner, in order: by its buttons, and by what was saved. */
  readonly pressed: readonly string[];
  /** The passage that is shown, in a store of its own. */
  readonly kept: TestDocuments;
  /** Starts tried in the plan; their plans are made when told. */
  readonly trials: TestTrials;
  /** Also removes the store. */
  readonly close: () => Promise<void>;
}

/** The pages on a free port of this machine, with a plan that stands as told and a passage that can be changed. */
export async function testServer(
  standing: () => PlanStanding = () => readyStanding,
  passageText?: string,
  keyOctets: Uint8Array | null = null,
  access: Access | null = null,
): Promise<TestServer> {
  const kept = testDocuments(passageText, keyOctets);
  await kept.documents.followFile();
  const reported: unknown[] = [];
  const pressed: string[] = [];
  let tokenCount = 0;
  const trials = testTrials({ kept, standing, pressed });
  const lastEpochMs = picture.slotEpochMs.at(-1) ?? 0;
  let host = '';
  const deps: Deps = {
    ...kept.documents,
    ...kept.forecasts,
    ...kept.messages,
    ...keepArchives({ ...kept, nowEpochMs: () => picture.nowEpochMs }),
    ...trials.keeper,
    savePassage: async (asked) => {
      const saved = await kept.documents.savePassage(asked);
      if (saved.ok) pressed.push('renew');
      return saved;
    },
    bringBackVersion: async (asked) => {
      const saved = await kept.documents.bringBackVersion(asked);
      if (saved.ok) pressed.push('renew');
      return saved;
    },
    makePassage: async (made) => {
      const saved = await kept.documents.makePassage(made);
      if (saved.ok) pressed.push('renew');
      return saved;
    },
    passageLog: kept.log.passageLog,
    writeLog: async (entry) => {
      const written = await kept.log.writeLog(entry);
      if (written.ok) pressed.push('renew');
      return written;
    },
    writeLogEntries: async (entries) => {
      const written = await Promise.all(entries.map((entry) => kept.log.writeLog(entry)));
      if (written.length > 0) pressed.push('renew');
      return ok(written.flatMap((one) => (one.ok ? [one.value] : [])));
    },
    planHistory: kept.plans.planHistory,
    planOfNumber: kept.plans.planOfNumber,
    formToken: () => `token-${(tokenCount += 1)}`,
    planStanding: standing,
    plannedDocument: () => null,
    makePlan: async () => void pressed.push('make'),
    stopPlan: () => void pressed.push('stop'),
    askDigest: (asked) => Promise.resolve(digestAnswer(asked)),
    askWindows: (asked) => Promise.resolve(ok(windowsAnswer(asked))),
    askLook: (asked) => Promise.resolve(asked.startEpochMs > lastEpochMs ? failed(outside) : ok(lookAnswer(asked))),
    nowEpochMs: () => picture.nowEpochMs,
    uptimeMs: () => 0,
    access,
    allowedHosts: () => [host],
    report: (error) => void reported.push(error),
  };
  const server = createServer(createApp(deps));
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
  host = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  const close = async (): Promise<void> => {
    await closed(server);
    kept.close();
  };
  return { url: `http://${host}`, host, reported, pressed, kept, trials, close };
}

const outside = {
  code: 'windows.start-outside',
  where: 'start',
  what: 'This start is not in the hours of the forecast that are still ahead.',
  expected: 'from 2026-05-27T20:20Z to 2026-05-31T20:20Z',
  remedy: 'Choose a start in that span.',
};

const closed = (server: Server): Promise<void> =>
  new Promise((settle) => {
    server.close(() => settle());
    server.closeAllConnections();
  });

/** Status of a request whose headers a browser's fetch would not let one set. */
export const statusOf = (
  url: string,
  options: { method?: string; headers: Readonly<Record<string, string>>; body?: string },
): Promise<number> =>
  new Promise((settle, fail) => {
    const { method = 'GET', headers, body = '' } = options;
    const request = httpRequest(url, { method, headers: { ...headers } }, (response) => {
      response.resume();
      settle(response.statusCode ?? 0);
    });
    request.once('error', fail).end(body);
  });
