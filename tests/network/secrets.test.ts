/** Secrets planted wherever there is one, and looked for in everything the program writes, prints and answers. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, writeFileSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FILES_AND_PARTS, PAGES } from '../../scripts/screenshots/pages.ts';
import { createApp } from '../../server/app.ts';
import type { Deps } from '../../server/deps.ts';
import { type Program, startProgram } from '../browser/stories/program.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { fieldsOf } from '../pages/sent-forms.ts';
import { demoFile, demoText } from '../pages/test-documents.ts';
import { ACCESS_KEY, ask, postForm, sessionIn } from './with-key.ts';

const MESSAGE_KEY = 'planted-message-key-4711';
const PASSWORD = 'planted-password-4712';
const TOKEN = 'planted-token-4713';
const GUESS = 'planted-guess-4714';

/** In the short run the pages that come near one. */
const pages = PAGES.map(({ path }) => path).filter(
  (path) => IS_LONG_RUN || /^\/(?:$|forecast|messages|document|log|plans|key|new$)/.test(path),
);

/** A secret as it stands, and as it would stand if it were hashed or encoded on its way. */
const formsOf = (secret: string): readonly string[] => {
  const hash = createHash('sha256').update(secret).digest();
  return [
    secret,
    encodeURIComponent(secret),
    Buffer.from(secret).toString('base64').replace(/=+$/, ''),
    Buffer.from(secret).toString('hex'),
    hash.toString('hex'),
    hash.toString('base64').replace(/=+$/, ''),
    hash.toString('base64url'),
  ];
};

describe('secrets of a running program', () => {
  let folder = '';
  let source: Server;
  let program: Program;
  let session = '';
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'slatch-secrets-'));
    const grib = readFileSync(join(demoFile, '../demo-control.grib2'));
    // The whole file, an error with the address in it, or on to where nobody listens.
    source = createServer((request, response) => {
      if (request.url?.includes('refused') === true) response.writeHead(403).end(request.url);
      else if (request.url?.includes('elsewhere') === true)
        response.writeHead(302, { Location: `http://127.0.0.1:1/x.grib2?token=${TOKEN}` }).end();
      else response.end(grib);
    });
    await new Promise<void>((settle) => source.listen(0, '127.0.0.1', settle));
    const passageFile = join(folder, 'passage.json');
    writeFileSync(passageFile, JSON.stringify({ ...(JSON.parse(demoText) as object), forecasts: [] }));
    program = await startProgram({ passageFile, key: MESSAGE_KEY, door: { host: '127.0.0.1', accessKey: ACCESS_KEY } });
  });
  afterAll(async () => {
    await program.stop();
    source.close().closeAllConnections();
    rmSync(folder, { recursive: true, force: true });
  });

  const post = (path: string, fields: Readonly<Record<string, string>>) =>
    postForm(program.url + path, fields, { Cookie: session });
  const page = async (path: string): Promise<string> =>
    (await ask(program.url + path, { headers: { Cookie: session } })).text;

  const asPart = () => ({ headers: { Cookie: session, 'HX-Request': 'true', 'HX-Request-Type': 'partial' } });
  const found: string[] = [];
  const look = (where: string, text: string): void => {
    const keys = [ACCESS_KEY, ACCESS_KEY.replaceAll('-', ''), session.replace(/^.*=/, '')];
    for (const secret of [MESSAGE_KEY, PASSWORD, TOKEN, GUESS, ...keys])
      for (const form of formsOf(secret)) if (text.includes(form)) found.push(`${where}: ${form}`);
  };

  /** Asks for a file and waits until it is there, or why it is not. */
  async function fetched(address: string): Promise<void> {
    const form = { source: 'address', address, cycle: '', steps: '', quantities: '', members: '', rate: '' };
    await post('/forecast/fetch', { ...form, do: 'estimate' });
    await post('/forecast/fetch', { ...form, do: 'fetch' });
    const fetching = async (): Promise<string> =>
      ask(`${program.url}/forecast/fetch`, asPart()).then(({ text }) => text);
    // It has ended, or waits to try once more.
    await expect.poll(fetching, { timeout: 20_000, interval: 200 }).toMatch(/^(?!.*fetch\/stop)|It waits until/s);
    look('/forecast/fetch', await fetching());
    await post('/forecast/fetch/stop', {});
    await expect.poll(fetching, { timeout: 20_000, interval: 200 }).not.toContain('fetch/stop');
  }

  it('in no page, file, line printed, and nowhere in the store', async () => {
    await postForm(`${program.url}/key`, { key: GUESS });
    await ask(program.url, { headers: { Authorization: `Bearer ${GUESS}` } });
    session = sessionIn(await postForm(`${program.url}/key`, { key: ACCESS_KEY }));
    const at = `http://127.0.0.1:${(source.address() as AddressInfo).port}`;
    await fetched(`${at.replace('http://', `http://sailor:${PASSWORD}@`)}/a.grib2`);
    for (const path of ['whole.grib2', 'refused.grib2', 'elsewhere.grib2'])
      await fetched(`${at}/${path}?token=${TOKEN}`);
    await fetched(`http://127.0.0.1:1/nobody.grib2?token=${TOKEN}`);
    const seen = fieldsOf(await page('/log/new/observation'));
    await post('/log/new/observation', { ...seen, position: '36 20 S 178 12 E' });
    const written = fieldsOf(await page('/messages'));
    const sent = await post('/messages/write', { ...written, kind: 'report', length: 'sms', limit: '', sender: 'BT' });
    expect([sent.status, String(sent.headers['location'])]).toEqual([303, expect.stringMatching(/^\/messages\/\d+/)]);

    for (const path of [...pages, ...FILES_AND_PARTS.map((one) => one.replace(/:\w+/, '1'))])
      look(path, await page(path));
    look('the terminal', program.said());
    const store = join(program.folder, 'store');
    for (const name of readdirSync(store, { recursive: true, encoding: 'utf8' }))
      if (statSync(join(store, name)).isFile()) look(name, readFileSync(join(store, name)).toString('latin1'));
    expect(found).toEqual([]);

    // They were there to be found: the whole file is kept under its name, and the guesses are told of.
    expect(await page('/forecast')).toContain('whole.grib2');
    expect(program.said()).toContain('Wrong access key from 127.0.0.1: 2 in a row.');
    expect(readFileSync(join(store, 'server.txt'), 'utf8')).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/, process \d+$/);
  });
});

describe('a mistake of ours', () => {
  it('every page: 500 without its words or where it happened; those go to the terminal', async () => {
    const reported: unknown[] = [];
    const secret = 'planted-in-an-error-4715';
    const broken: Record<string, unknown> = {
      access: null,
      uptimeMs: () => 0,
      allowedHosts: () => [`127.0.0.1:${(server.address() as AddressInfo).port}`],
      report: (error: unknown) => reported.push(error),
    };
    const deps = new Proxy(broken, {
      get: (known, name) =>
        name in known
          ? known[String(name)]
          : () => {
              throw new Error(secret);
            },
    });
    const server = createServer(createApp(deps as unknown as Deps));
    await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
    const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    let brokenCount = 0;
    for (const { path } of PAGES) {
      const { status, text } = await ask(url + path);
      if (status !== 500) continue;
      brokenCount += 1;
      expect(text).toContain('The mistake is ours, not yours.');
      expect(text).not.toMatch(/planted|Error:|\.ts:|node_modules|    at /);
    }
    server.close().closeAllConnections();
    expect(brokenCount).toBeGreaterThan(20);
    expect(reported).toHaveLength(brokenCount);
    expect((reported[0] as Error).message).toBe(secret);
  });
});
