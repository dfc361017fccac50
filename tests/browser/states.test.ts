/** Pages while there is no plan yet or none can be, and a form that comes too late: by axe, with every style. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ok } from '../../lib/result/index.ts';
import type { PlanStanding } from '../../server/deps.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { axeViolations, dress, overflowPx, smallTargetsPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

const problem = {
  code: 'forecast.over',
  where: 'demo-control.grib2',
  what: 'The forecast is over.',
  expected: 'a forecast that reaches beyond now',
  remedy: 'Get a newer one.',
};
const STANDINGS: readonly (readonly [string, PlanStanding])[] = [
  ['planning', { kind: 'planning', sinceEpochMs: 0, readShare: 1, searchShare: 0.4, searchNumber: 1 }],
  ['stopped', { kind: 'stopped' }],
  ['failed', { kind: 'failed', problems: [problem] }],
];

describe.skipIf(chromium === null)('states of the plan, in a browser', () => {
  let standing: PlanStanding = { kind: 'stopped' };
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await testServer(() => standing);
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });

  it.each(STANDINGS)(
    '%s: every page says so; nothing wrong by axe, by day and at night, on a phone',
    async (_, now) => {
      standing = now;
      const { page } = browser;
      await page.setViewportSize({ width: 390, height: 844 });
      for (const path of ['/', '/windows', '/plan']) {
        const answer = await page.goto(server.url + path);
        expect(answer?.status(), path).toBe(200);
        expect(await page.locator('h1').count(), path).toBe(1);
        for (const style of ['day', 'night'] as const) {
          await dress(page, style);
          // Markup is the same in both: at night only colours can be wrong.
          const rules = style === 'day' || IS_LONG_RUN ? 'all' : 'colours';
          expect(await axeViolations(page, rules), path).toEqual([]);
        }
        expect(await overflowPx(page), path).toBe(0);
        expect(await smallTargetsPx(page, 'main button, main a.button'), path).toEqual([]);
      }
    },
  );

  it('a form that comes too late: 409, said first, what was typed stands; nothing wrong by axe', async () => {
    const { page } = browser;
    await page.goto(`${server.url}/passage/settings`);
    await page.fill('input[name="wantedProbability"]', '0.9');
    const text = server.kept.documents.passageText();
    if (!text.ok) throw new Error('no passage');
    await server.kept.documents.savePassage({
      expected: text.value,
      change: (file) => ok({ ...file, name: 'By another hand' }),
    });
    const noted = browser.complaints.length;
    const answer = page.waitForResponse((response) => response.request().method() === 'POST');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    expect((await answer).status()).toBe(409);
    await page
      .getByText(/not saved/i)
      .first()
      .waitFor();
    expect(await page.inputValue('input[name="wantedProbability"]')).toBe('0.9');
    expect(await axeViolations(page)).toEqual([]);
    expect(browser.complaints.slice(noted).filter((one) => !one.includes('409'))).toEqual([]);
  });
});
