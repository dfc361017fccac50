/** Locking a job, bounding it, forbidding hours and taking a change back, in a browser. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const LOOK = '/windows?job=drop&start=2026-05-28T02:00Z';

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
