import { createServer, request as httpRequest, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createApp } from '../../server/app.ts';
import type { Deps, PlanStanding } from '../../server/deps.ts';
import type { PlanReady } from '../../server/presenters/plan-standing.ts';
import { failed, ok } from '../../lib/result/index.ts';
import { picture } from './fixture-plan.ts';
import { lookAnswer, view, windowsAnswer } from './fixture-windows.ts';

export const readyStanding: PlanReady = { kind: 'ready', view };

export interface TestServer {
  readonly url: string;
  readonly host: string;
  readonly reported: readonly unknown[];
  /** What was asked of the planner's buttons, in order. */
  readonly pressed: readonly string[];
  readonly close: () => Promise<void>;
}

/** The pages on a free port of this machine, with a plan that stands as told. */
export async function testServer(standing: () => PlanStanding = () => readyStanding): Promise<TestServer> {
  const reported: unknown[] = [];
  const pressed: string[] = [];
  const lastEpochMs = picture.slotEpochMs.at(-1) ?? 0;
  let host = '';
  const deps: Deps = {
    planStanding: standing,
    makePlan: () => void pressed.push('make'),
    stopPlan: () => void pressed.push('stop'),
    askWindows: (asked) => Promise.resolve(ok(windowsAnswer(asked))),
    askLook: (asked) => Promise.resolve(asked.startEpochMs > lastEpochMs ? failed(outside) : ok(lookAnswer(asked))),
    nowEpochMs: () => picture.nowEpochMs,
    allowedHosts: () => [host],
    report: (error) => void reported.push(error),
  };
  const server = createServer(createApp(deps));
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
  host = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  return { url: `http://${host}`, host, reported, pressed, close: () => closed(server) };
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
