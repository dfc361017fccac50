import { createServer, request as httpRequest, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createApp } from '../../server/app.ts';
import type { Deps, PlanStanding } from '../../server/deps.ts';
import { picture, plan } from './fixture-plan.ts';

export const readyStanding: PlanStanding = { kind: 'ready', view: { plan, picture } };

export interface TestServer {
  readonly url: string;
  readonly host: string;
  readonly reported: readonly unknown[];
  readonly close: () => Promise<void>;
}

/** The pages on a free port of this machine, with a plan that stands as told. */
export async function testServer(standing: () => PlanStanding = () => readyStanding): Promise<TestServer> {
  const reported: unknown[] = [];
  let host = '';
  const deps: Deps = {
    planStanding: standing,
    nowEpochMs: () => picture.nowEpochMs,
    allowedHosts: () => [host],
    report: (error) => void reported.push(error),
  };
  const server = createServer(createApp(deps));
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
  host = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  return { url: `http://${host}`, host, reported, close: () => closed(server) };
}

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
