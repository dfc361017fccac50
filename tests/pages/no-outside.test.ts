import nock from 'nock';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serve } from '../../server/serve.ts';
import { picture } from './fixture-plan.ts';
import { view } from './fixture-windows.ts';
import { runOf } from './plan-runs.ts';
import { testDocuments } from './test-documents.ts';

const asked: string[] = [];

beforeAll(() => {
  nock.disableNetConnect();
  nock.enableNetConnect('127.0.0.1');
  nock.emitter.on('no match', (request: { host?: string; hostname?: string }) => {
    asked.push(request.host ?? request.hostname ?? 'unknown host');
  });
});

afterAll(() => {
  nock.emitter.removeAllListeners('no match');
  nock.enableNetConnect();
});

describe('the outside world', () => {
  it('page, parts and fonts served with the network shut: nothing is asked of it', async () => {
    const kept = testDocuments();
    const server = await serve({
      config: { host: '127.0.0.1', address: '127.0.0.1', isLoopback: true, port: 0 },
      access: null,
      documents: kept.documents,
      log: kept.log,
      plans: kept.plans,
      forecasts: kept.forecasts,
      messages: kept.messages,
      startPlan: runOf(async () => ({ ok: true, value: view })),
      nowEpochMs: () => picture.nowEpochMs,
      print: () => undefined,
      printError: () => undefined,
    });
    if (server === null) throw new Error('the server did not start');
    const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    const page = await (await fetch(base)).text();
    const links = [...page.matchAll(/(?:href|src)="(\/[^"?#]*)/g)].map(([, path]) => path ?? '/');
    const answers = await Promise.all(links.map(async (path) => (await fetch(`${base}${path}`)).status));
    server.close().closeAllConnections();
    kept.close();
    expect(links.length).toBeGreaterThan(3);
    expect(new Set(answers)).toEqual(new Set([200]));
    expect(asked.filter((host) => !host.startsWith('127.0.0.1'))).toEqual([]);
  });

  it('a request that left this machine would be seen here', async () => {
    await expect(fetch('http://forecast.example/')).rejects.toThrow();
    expect(asked.join(' ')).toContain('forecast.example');
  });
});
