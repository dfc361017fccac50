/** Locking a job, bounding it, forbidding hours and taking a change back, in a browser. */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { axeViolations, chooseDisplay, displaysOf, overflowPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const LOOK = '/windows?job=drop&start=2026-05-28T02:00Z';
const HOURS = '/jobs/oil/hours?saved=1.3';

/** A passage with a locked job and forbidden hours. */
async function steered(): Promise<TestServer> {
  const server = await testServer();
  const post = (path: string, fields: Record<string, string>): Promise<Response> =>
    fetch(server.url + path, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual' });
  await post('/jobs/drop/lock', { version: '1.1', startUtc: '2026-05-28T02:00Z', handling: 'run-off' });
  await post('/jobs/oil/forbid', { version: '1.2', fromUtc: '2026-05-28T14:00', toUtc: '2026-05-28T16:00', job: '' });
  return server;
}

describe.skipIf(chromium === null)('hours of a job in a browser', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await steered();
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(() => browser.page.context().clearCookies());

  it.each(displaysOf([HOURS, '/document?saved=1.3', '/plan?saved=1.3', LOOK]))(
    '%s, %s, %d px: axe finds nothing, nothing reaches past the side',
    async (path, style, px) => {
      const { page } = browser;
      await page.setViewportSize({ width: px, height: 844 });
      await page.goto(server.url + path);
      if (style === 'night') await chooseDisplay(page, 'Night display');
      expect(await axeViolations(page)).toEqual([]);
      expect(await overflowPx(page)).toBe(0);
    },
  );

  it.each([HOURS, '/document', '/plan', LOOK])(
    '%s at 320 px: nothing past the side, buttons large enough',
    async (path) => {
      const { page } = browser;
      await page.setViewportSize({ width: 320, height: 844 });
      await page.goto(server.url + path);
      expect(await overflowPx(page)).toBe(0);
      // 44 px: WCAG 2.2, success criterion 2.5.5 (enhanced target size).
      const heights = await page
        .locator('.hours-page button, .order-buttons button, .order-buttons a, form.lock button, .versions button')
        .evaluateAll((nodes) =>
          nodes.map(
            (node) =>
              (node as unknown as { getBoundingClientRect: () => { height: number } }).getBoundingClientRect().height,
          ),
        );
      expect(heights.length).toBeGreaterThan(0);
      expect(heights.filter((height) => Math.ceil(height) < 44)).toEqual([]);
    },
  );

  it('nothing complained of', () => {
    expect(browser.complaints).toEqual([]);
  });
});

describe.skipIf(chromium === null).each([true, false])('script %s: the plan steered', (javaScriptEnabled) => {
  let server: TestServer;
  let browser: Watched;
  beforeEach(async () => {
    server = await testServer();
    browser = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled });
  });
  afterEach(async () => {
    await browser.close();
    await server.close();
  });

  it('a start looked at and locked, hours forbidden, the change taken back and put back', async () => {
    const { page } = browser;
    await page.goto(server.url + LOOK);
    await page.click('text="Start then"');
    await page.locator('#job-drop .fixed', { hasText: 'starts exactly at Thu 28 May 14:00' }).waitFor();
    await page.click('#job-drop >> text="Its hours"');
    await page.fill('#f-fromUtc', '2026-05-28T18:00');
    await page.fill('#f-toUtc', '2026-05-28T20:00');
    await page.selectOption('#f-job', 'every');
    await page.click('text="Forbid these hours"');
    await page.locator('.forbidden li', { hasText: 'Thu 18:00 to 20:00, every job' }).waitFor();
    await page.goto(`${server.url}/document`);
    await page.click('text="Take the last change back"');
    await page.locator('.notice.saved', { hasText: 'again as it was at version 2' }).waitFor();
    await page.goto(`${server.url}/plan`);
    await page.click('#job-drop >> text="Take the lock off"');
    await page.locator('#job-drop >> text=/Lock it to/').waitFor();
    await page.click('text="Take this change back"');
    await page.locator('#job-drop .fixed').waitFor();
    expect(await page.locator('.notice.saved').innerText()).toContain('Taken back');
    expect(browser.complaints).toEqual([]);
  });
});
