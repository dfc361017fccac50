/** After a forecast was refused, torn off or given up: nothing of it is left, and the pages offer no file of others. */
import { readdirSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { scanGrib } from '../../lib/grib/index.ts';
import { decodeOnThreads } from '../../server/decoding/decode-on-threads.ts';
import { readGoldenBytes } from '../grib/golden-files.ts';
import { fieldsOf, textOf } from '../pages/sent-forms.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';

let server: TestServer;
beforeEach(async () => {
  server = await testServer();
});
afterEach(() => server.close());

const page = async (): Promise<string> => (await fetch(`${server.url}/forecast`)).text();
const forecastFolder = (): readonly string[] => readdirSync(join(server.kept.store.folder, 'grib'));
const listed = (): unknown => server.kept.store.forecasts.list();
const NOTHING = { ok: true, value: [] };

async function sent(name: string, octets: Uint8Array): Promise<{ status: number; text: string }> {
  const form = new FormData();
  form.append('forecast', new File([Uint8Array.from(octets)], name));
  const answer = await fetch(`${server.url}/forecast/upload`, {
    method: 'POST',
    body: form,
    headers: { Origin: server.url },
    redirect: 'manual',
  });
  return { status: answer.status, text: textOf(await answer.text()) };
}

const golden = readGoldenBytes('am_bm_simple.grib2');
const broken = golden.slice();
broken.fill(255, 16, 20);

describe('a forecast sent and refused', () => {
  it.each([
    ['a web page', new TextEncoder().encode('<html>log in</html>'), 'This is a web page'],
    ['nothing', new Uint8Array(), 'The file is empty'],
    ['zeros', new Uint8Array(1_000_000), 'The file holds no GRIB message'],
    ['a message cut short', golden.subarray(0, 150), 'inside this message'],
    ['a section of 4 GB', broken, 'inside this message'],
    ['start marks', new TextEncoder().encode('GRIB\0\0\0\u0002'.repeat(10_000)), 'message 1'],
  ])('%s: said, and neither file nor entry is left', async (_, octets, said) => {
    const { status, text } = await sent('bad.grib2', octets);
    expect(status).toBe(422);
    expect(text).toContain(said);
    expect(text).toContain('bad.grib2');
    expect(forecastFolder()).toEqual([]);
    expect(listed()).toEqual(NOTHING);
    expect(server.reported).toEqual([]);
  });

  it('twenty times over: nothing is left, and no more is open than after the first', async () => {
    const open = (): number => (process.platform === 'linux' ? readdirSync('/proc/self/fd').length : 0);
    await sent('bad.grib2', broken);
    const before = open();
    for (let i = 0; i < 20; i++) {
      // oxlint-disable-next-line no-await-in-loop -- one after the other
      await sent(`bad-${i}.grib2`, broken);
    }
    expect(forecastFolder()).toEqual([]);
    expect(listed()).toEqual(NOTHING);
    // Connections of the client stay open for a while.
    expect(open()).toBeLessThanOrEqual(before + 3);
  });

  it('torn off in the middle: neither file nor entry is left', async () => {
    const boundary = 'edge';
    const head = `--${boundary}\r\nContent-Disposition: form-data; name="forecast"; filename="half.grib2"\r\n\r\n`;
    const sending = request(`${server.url}/forecast/upload`, {
      method: 'POST',
      headers: {
        'Content-Type': `multipart/form-data; boundary=${boundary}`,
        'Content-Length': '1000000',
        Origin: server.url,
      },
    });
    const ended = new Promise<void>((settle) => {
      sending.on('error', () => settle()).on('close', () => settle());
    });
    sending.write(head);
    sending.write(golden);
    await expect.poll(forecastFolder, { timeout: 4000 }).toHaveLength(1);
    sending.destroy();
    await ended;
    await expect.poll(forecastFolder, { timeout: 4000 }).toEqual([]);
    expect(listed()).toEqual(NOTHING);
  });
});

describe('a forecast sent and kept', () => {
  it.each([
    ['../../../evil.grib2', 'evil.grib2'],
    ['/etc/passwd', 'passwd'],
    ['..', null],
    ['a\u202Ebirg.exe', 'a\\u{202E}birg.exe'],
    [`${'n'.repeat(5000)}.grib2`, 'nnn … nnn'],
  ])('under the name %j: the file stands under its hash, the name is only shown', async (name, shown) => {
    await sent(name, golden);
    const files = forecastFolder();
    expect(files.filter((file) => !/^[0-9a-f]{64}\.grib$/.test(file))).toEqual([]);
    const text = textOf(await page());
    if (shown === null) return;
    expect(files).toHaveLength(1);
    expect(text).toContain(shown.split(' … ')[0]);
    expect(text).not.toContain('n'.repeat(300));
    expect(text).not.toMatch(/[\u202A-\u202E\u2066-\u2069]/);
  });
});

describe('which files a form may name', () => {
  const named = async (): Promise<readonly string[]> => {
    const document = await server.kept.documents.passageDocument();
    return document.ok ? document.value.passage.forecasts : [];
  };

  it.each([
    '/etc/passwd',
    '../../../../etc/passwd',
    'store:../../../etc/passwd',
    `store:${'a'.repeat(64)}`,
    'file:///etc/passwd',
    '/dev/zero',
    './demo-control.grib2',
    'demo-control.grib2\0',
  ])('%j, which its page did not offer: refused, and the passage is as it was', async (name) => {
    const before = await named();
    const version = fieldsOf(await page())['version'] ?? '';
    const answer = await fetch(`${server.url}/forecast/files`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/x-www-form-urlencoded', Origin: server.url },
      body: new URLSearchParams([
        ['version', version],
        ['use', name],
      ]).toString(),
      redirect: 'manual',
    });
    expect(answer.status).toBe(422);
    const text = textOf(await answer.text());
    expect(text).toContain('is no forecast of this passage or of the store.');
    expect(text).not.toContain('root:');
    expect(await named()).toEqual(before);
  });
});

describe('decoding given up', () => {
  const bytes = readGoldenBytes('gefs_ens_simple.grib2');
  const file = { name: 'gefs.grib2', bytes };
  const tasks = scanGrib(bytes, file.name).fields.map((field) => ({ file, field, part: null }));
  const threads = (): number =>
    process.getActiveResourcesInfo().filter((name) => /Worker|MessagePort/.test(name)).length;

  it('stopped at the first field, three times over: no thread is left', async () => {
    const before = threads();
    for (let round = 0; round < 3; round++) {
      const stop = new AbortController();
      const options = { threadCount: 2, onDone: () => stop.abort(new Error('enough')), signal: stop.signal };
      // oxlint-disable-next-line no-await-in-loop -- one after the other
      await expect(decodeOnThreads(tasks, options)).rejects.toThrow('enough');
    }
    await expect.poll(threads).toBe(before);
  });
});
