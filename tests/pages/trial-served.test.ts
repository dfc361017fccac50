/** A real trial: two plans made by real threads of a small invented passage, the second taken as it is. */
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepDocuments } from '../../server/documents/index.ts';
import { realWorld } from '../../server/fetchers/index.ts';
import { keepForecasts } from '../../server/keep-forecasts.ts';
import { keepLog } from '../../server/keep-log.ts';
import { keepMessages } from '../../server/keep-messages.ts';
import { keepPlans } from '../../server/keep-plans.ts';
import { openServerStore } from '../../server/open-server-store.ts';
import { planInOwnProcess } from '../../server/planning.ts';
import { serve } from '../../server/serve.ts';
import { folderWith, forecastOctets, removeFolders, utcAtH, writePassage } from '../end-to-end/small-passage.ts';
import { fieldsOf, textOf } from './sent-forms.ts';

let server: Server | null = null;
let closeStore = (): void => undefined;
let url = '';
/** Threads begun. */
let begunCount = 0;

beforeAll(async () => {
  // Light until the evening, then far over the no-go of 16 kn over the deck.
  const file = writePassage({ forecast: forecastOctets({ windKn: (stepH) => (stepH < 18 ? 8 : 32) }) });
  const opened = openServerStore(folderWith({}));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const { store, close } = opened.value;
  closeStore = close;
  const nowEpochMs = (): number => Date.parse(utcAtH(3));
  const documents = keepDocuments({ store, file, nowEpochMs });
  const start = planInOwnProcess(nowEpochMs);
  server = await serve({
    config: { host: '127.0.0.1', address: '127.0.0.1', isLoopback: true, port: 0 },
    access: null,
    documents,
    log: keepLog({ store, documents, nowEpochMs }),
    plans: keepPlans({ store, documents, nowEpochMs }),
    forecasts: keepForecasts({ store, world: { ...realWorld, nowEpochMs } }),
    messages: keepMessages({ store, documents, keyOctets: null, nowEpochMs }),
    startPlan: (beginning) => {
      begunCount += 1;
      return start(beginning);
    },
    nowEpochMs,
    print: () => undefined,
    printError: (line) => {
      throw new Error(line);
    },
  });
  if (server === null) throw new Error('no server');
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterAll(() => {
  server?.close().closeAllConnections();
  closeStore();
  removeFolders();
});

const html = async (path: string): Promise<string> => (await fetch(url + path)).text();
const formOf = (page: string, action: string): string =>
  new RegExp(`<form[^>]*action="${action}".*?</form>`, 's').exec(page)?.[0] ?? '';
const press = async (page: string, action: string): Promise<Response> =>
  fetch(url + action, {
    method: 'POST',
    body: new URLSearchParams(fieldsOf(formOf(page, action))),
    redirect: 'manual',
  });

async function tried(jobId: string, startUtc: string): Promise<string> {
  const begun = await press(await html(`/windows?job=${jobId}&part=1&handling=run-off&start=${startUtc}`), '/trial');
  expect(begun.headers.get('Location')).toBe('/trial');
  await expect.poll(() => html('/trial'), { timeout: 120_000, interval: 300 }).not.toContain('aria-busy');
  return html('/trial');
}

describe('a start tried on a real passage', () => {
  it(
    'in fair weather: planned then; taken: plan 2 is that plan, and no third is made',
    { timeout: 240_000 },
    async () => {
      await expect.poll(() => html('/plans'), { timeout: 120_000, interval: 300 }).toContain('shown now');
      const startUtc = utcAtH(10);
      const page = await tried('second', startUtc);
      expect(textOf(page)).toContain('With this start 2 jobs are planned, as many as without it.');
      expect(textOf(page)).toMatch(/Job second its start is tried .* later, Wed 27 May 22:00 instead of/);
      // Before it is taken, the plan of the passage is the first one still.
      expect(textOf(await html('/plans'))).not.toContain('Plan 2');
      const taken = await press(page, '/trial/take');
      expect(taken.headers.get('Location')).toBe('/plan?saved=1.2#job-second');
      expect(begunCount).toBe(2);
      const plan = JSON.parse(await html('/plans/2.json')) as {
        planNumber: number;
        jobs: readonly { jobId: string; startUtc: string }[];
      };
      expect([plan.planNumber, plan.jobs.find(({ jobId }) => jobId === 'second')?.startUtc]).toEqual([2, startUtc]);
      const shown = textOf(await html('/plan'));
      expect(shown).toContain('Fixed by you: starts exactly at Wed 27 May 22:00');
      expect(shown).not.toContain('earlier state');
      // Its thread answers for the windows from now on.
      expect(textOf(await html(`/windows?job=second&part=1&handling=run-off&start=${startUtc}`))).toContain(
        'this is that start',
      );
    },
  );

  it('in a gale: no plan with that start, and by how much it misses', { timeout: 240_000 }, async () => {
    const page = await tried('first', utcAtH(20));
    const text = textOf(page);
    expect(text).toContain('There is no plan with this start: “Job first” would not be planned at all.');
    // The words of what is fixed: the nearest start of its windows, and how far off it is.
    expect(text).toMatch(/its limits allow no start then; nearest .*, (\d+ h ?)?(\d+ min)? ?earlier\./);
    // What comes after it falls out with it.
    expect(text).toMatch(/What falls out of the plan Job second: no longer planned\. It comes after "Job first"/);
    expect(formOf(page, '/trial/take')).toBe('');
    expect((await press(page, '/trial/leave')).headers.get('Location')).toContain('/windows?job=first');
    expect(textOf(await html('/plans'))).not.toContain('Plan 3');
  });
});
