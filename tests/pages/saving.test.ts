/** A form as pages of the passage have it: one field, the name, and the version it was made from. */
import express from 'express';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { failed, ok } from '../../lib/result/index.ts';
import type { Deps } from '../../server/deps.ts';
import { formBody } from '../../server/routes/form.ts';
import { errorPage } from '../../server/routes/errors.ts';
import { saving } from '../../server/routes/saving.ts';
import { onlyOwnForms } from '../../server/routes/security.ts';
import { testDocuments, type TestDocuments } from './test-documents.ts';
import { statusOf } from './test-server.ts';

let kept: TestDocuments;
let server: Server;
let url = '';
beforeEach(async () => {
  kept = testDocuments();
  await kept.documents.followFile();
  server = createServer(appOf(kept));
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/name`;
});
afterEach(() => {
  server.close().closeAllConnections();
  kept.close();
});

const noName = { code: 'form.empty', where: 'name', what: 'It is empty.', expected: 'a name', remedy: 'Give one.' };

function appOf({ documents, log }: TestDocuments): express.Express {
  const deps = {
    ...documents,
    planStanding: () => ({ kind: 'stopped' }),
    plannedDocument: () => null,
    report: () => undefined,
    passageLog: log.passageLog,
    nowEpochMs: () => 0,
  } as unknown as Deps;
  const app = express().use(onlyOwnForms);
  // oxlint-disable-next-line oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page
  app.post('/name', formBody, async (request, response) => {
    await saving(
      deps,
      { request, response },
      {
        change: (file, form) => (form.text('name') === '' ? failed(noName) : ok({ ...file, name: form.text('name') })),
        to: '/jobs?job=oil#name',
        page: ({ problems, isConflict, form }, shown) =>
          JSON.stringify({
            entered: form.all('name'),
            codes: problems.map(({ code }) => code),
            isConflict,
            above: shown.notices?.map(({ title }) => title),
          }),
      },
    );
  });
  app.use(errorPage(deps));
  return app;
}

const sent = (body: URLSearchParams | string, headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(url, { method: 'POST', body, headers: { ...headers }, redirect: 'manual' });
const form = (name: string, version = '1.1'): URLSearchParams => new URLSearchParams({ name, version });
const nameNow = async (): Promise<string> => {
  const document = await kept.documents.passageDocument();
  return document.ok ? document.value.file.name : '';
};

describe('saving', () => {
  it('good: kept, and then to the page (303) with what was saved, its place last', async () => {
    const answer = await sent(form('Home, safe & sound'));
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/jobs?job=oil&saved=1.2#name']);
    expect(await nameNow()).toBe('Home, safe & sound');
  });

  it('the form wrong: 422, the page again with what was entered and every problem, nothing kept', async () => {
    const before = await nameNow();
    const answer = await sent(form(''));
    expect([answer.status, await answer.json()]).toEqual([
      422,
      { entered: [''], codes: ['form.empty'], isConflict: false, above: ['Not saved'] },
    ]);
    expect(await nameNow()).toBe(before);
  });

  it('the passage wrong with it: 422 with the problem of the whole check', async () => {
    const answer = await sent(form('x'.repeat(401)));
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ entered: ['x'.repeat(401)], codes: ['passage.value'] });
  });

  it('saved by another tab meanwhile: 409, what was entered is there, the other stays', async () => {
    await sent(form('First'));
    const answer = await sent(form('Second'));
    expect([answer.status, await answer.json()]).toEqual([
      409,
      { entered: ['Second'], codes: ['store.version-conflict'], isConflict: true, above: ['Not saved'] },
    ]);
    expect(await nameNow()).toBe('First');
  });

  it.each(['', '1', 'x.y', '1.1;', '1e1.1'])('version "%s": not a form of ours, 400, nothing kept', async (version) => {
    const before = await nameNow();
    expect((await sent(form('No', version))).status).toBe(400);
    expect(await nameNow()).toBe(before);
  });

  it('a body just under 256 kB: read; over it, or of too many fields: 413', async () => {
    const filled = (octets: number): URLSearchParams => {
      const body = form('Long');
      body.set('note', 'x'.repeat(octets - body.toString().length - 6));
      return body;
    };
    expect((await sent(filled(256 * 1024))).status).toBe(303);
    expect((await sent(filled(256 * 1024 + 1))).status).toBe(413);
    const many = new URLSearchParams(Array.from({ length: 6000 }, (_, index): [string, string] => [`f${index}`, '']));
    expect((await sent(many)).status).toBe(413);
  });

  it('a body that is no form: 400, nothing kept', async () => {
    const answer = await sent('{"name":"No","version":"1.1"}', { 'Content-Type': 'application/json' });
    expect(answer.status).toBe(400);
  });

  it('field names that objects have by themselves: texts like any other', async () => {
    const body = new URLSearchParams('version=1.1&name=Fine&__proto__=a&constructor=b&toString=c');
    expect((await sent(body)).status).toBe(303);
    expect(await nameNow()).toBe('Fine');
  });

  it('from a page of others: 403, nothing kept', async () => {
    const before = await nameNow();
    const headers = { 'Content-Type': 'application/x-www-form-urlencoded', Origin: 'http://evil.example' };
    expect(await statusOf(url, { method: 'POST', body: form('No').toString(), headers })).toBe(403);
    expect(await nameNow()).toBe(before);
  });
});
