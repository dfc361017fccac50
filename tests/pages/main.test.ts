/** The program itself, with a passage that names no forecast, so that nothing is searched. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepDocuments } from '../../server/documents/index.ts';
import { keepLog } from '../../server/keep-log.ts';
import { openServerStore } from '../../server/open-server-store.ts';
import { projectFolder } from '../architecture/source-file.ts';
import { fieldsOf } from './sent-forms.ts';
import { demoText } from './test-documents.ts';

let folder = '';
const running: ChildProcess[] = [];
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'slatch-main-'));
  writeFileSync(join(folder, 'passage.json'), JSON.stringify({ ...(JSON.parse(demoText) as object), forecasts: [] }));
});
afterAll(() => {
  for (const child of running) child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

interface Started {
  readonly child: ChildProcess;
  readonly said: () => string;
}

/** Its store is given by the environment; its home is a folder that must stay empty. */
function started(more: readonly string[] = []): Started {
  const home = join(folder, 'home');
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', 'server/main.ts', '--port', '0', '--passage', join(folder, 'passage.json'), ...more],
    {
      cwd: projectFolder,
      env: { ...process.env, HOME: home, XDG_DATA_HOME: home, SLATCH_STORE: join(folder, 'store') },
    },
  );
  running.push(child);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk: Buffer) => (said += chunk.toString()));
  return { child, said: () => said };
}

const addressOf = async ({ said }: Started): Promise<string> => {
  await expect.poll(said, { timeout: 60_000 }).toMatch(/^Slatch: http:\/\/\S+/);
  return /http:\/\/\S+\//.exec(said())?.[0] ?? '';
};

describe('npm start', () => {
  it('one server to a store, a second is told which; an edit outlives the program, which ends by SIGTERM', async () => {
    const first = started();
    const address = await addressOf(first);
    const page = async (): Promise<string> => (await fetch(address)).text();
    await expect.poll(page, { timeout: 60_000 }).toContain('The passage names no forecast.');

    const second = started();
    const [code] = (await once(second.child, 'close')) as [number];
    expect(code).toBe(1);
    expect(second.said()).toContain(`(${address}, process ${first.child.pid}) is already using this store`);
    expect(second.said()).not.toContain('at ');

    const byHand = JSON.stringify({ ...(JSON.parse(demoText) as object), forecasts: [], name: 'By hand' });
    writeFileSync(join(folder, 'passage.json'), byHand);
    const body = new URLSearchParams({ version: '1.1' });
    const taken = await fetch(`${address}document/take-over`, { method: 'POST', body, redirect: 'manual' });
    expect(taken.headers.get('Location')).toBe('/?saved=1.2');
    const form = fieldsOf(await (await fetch(`${address}log/new/observation`)).text());
    const hpa = Array.from({ length: 24 }, (_, n) => 970 + n);
    let answeredCount = 0;
    const saved = hpa.map(async (pressure) => {
      const fields = { ...form, token: `t${pressure}`, pressureHpa: String(pressure) };
      const answer = await fetch(`${address}log/new/observation`, {
        method: 'POST',
        body: new URLSearchParams(fields),
        redirect: 'manual',
      }).catch(() => null);
      answeredCount += 1;
      return answer?.status === 303 ? pressure : null;
    });
    // Ended in the middle of them.
    await expect.poll(() => answeredCount, { interval: 1, timeout: 60_000 }).toBeGreaterThan(2);
    first.child.kill('SIGTERM');
    const acknowledged = (await Promise.all(saved)).filter((pressure) => pressure !== null);
    expect(await once(first.child, 'close')).toEqual([0, null]);

    const opened = openServerStore(join(folder, 'store'));
    if (!opened.ok) throw new Error(opened.problems[0].what);
    const documents = keepDocuments({
      store: opened.value.store,
      file: join(folder, 'passage.json'),
      nowEpochMs: () => 0,
    });
    const kept = documents.passageText();
    const log = keepLog({ store: opened.value.store, documents, nowEpochMs: () => 0 }).passageLog();
    opened.value.close();
    const written = log.ok
      ? log.value.entries.map(({ entry }) => ('pressureHpa' in entry ? entry.pressureHpa : 0))
      : [];
    expect(acknowledged.length).toBeGreaterThan(2);
    expect(acknowledged.filter((pressure) => !written.includes(pressure))).toEqual([]);
    expect(kept).toMatchObject({ ok: true, value: { number: 1, version: 2, text: byHand } });
    expect(readdirSync(folder).toSorted()).toEqual(['passage.json', 'store']);
  }, 120_000);

  it('on an address others can reach, without an access key: one line that says how to make one, and nothing listens', async () => {
    const refused = started(['--host', '192.0.2.1']);
    expect(await once(refused.child, 'close')).toEqual([1, null]);
    expect(refused.said()).toMatch(
      /^--access-key or SLATCH_ACCESS_KEY: .* Make one with "npx --no-install slatch access-key FILE", then start with: npm start -- --host 192\.0\.2\.1 --access-key FILE\. [^\n]*\n$/,
    );
  });
});
