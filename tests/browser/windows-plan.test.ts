import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { PlanStanding } from '../../server/deps.ts';
import { readyStanding, testServer, type TestServer } from '../pages/test-server.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { servedPages } from './served-pages.ts';
import { chooseDisplay, overflowPx, overlappingLabels } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const START = '/windows?job=stitch&start=2026-05-28T10:30Z';
const ADDRESSES = ['/windows?job=block', START, '/plan'];
const addresses = IS_LONG_RUN ? ['/windows?job=drop', '/windows?job=bolt', ...ADDRESSES] : ADDRESSES;

describe.skipIf(chromium === null)('windows and plan in a browser', () => {
  let standing: PlanStanding = readyStanding;
  const at = servedPages(launch, () => testServer(() => standing));
  afterEach(() => {
    standing = readyStanding;
  });

  it('navigation leads from page to page, and says which is shown', async () => {
    const page = await at.open('/');
    for (const name of ['Windows', 'Plan', 'Passage']) {
      await page.click(`header > nav >> text=${name}`);
      await page.waitForLoadState('load');
      expect(await page.locator('header > nav a[aria-current=page]').innerText()).toBe(name);
    }
  });

  it('job, then handling, then a start: part by part, the address follows, and back leads back', async () => {
    const page = await at.open('/windows');
    await page.selectOption('#choose-job', 'stitch');
    await page.click('#show-windows');
    await page.locator('#windows-what', { hasText: 'Stitch the leech' }).waitFor();
    const answer = page.waitForResponse((response) => response.url().includes('ship='));
    await page.fill('#pick-start', '2026-05-28T22:30');
    await page.click('#look-at-start');
    expect(await (await answer).text()).toMatch(/^<main/);
    await page.locator('#start-title', { hasText: 'Thu 28 May 22:30' }).waitFor();
    expect(page.url()).toContain('/windows?');
    await page.click('#move-1-h-later');
    await page.locator('#start-title', { hasText: 'Thu 28 May 23:30' }).waitFor();
    await page.goBack();
    await page.locator('#start-title', { hasText: 'Thu 28 May 22:30' }).waitFor();
    expect(await page.locator('header').count()).toBe(1);
  });

  it.each([
    [1280, 'desk', '2026-05-28T11:00Z'],
    [390, 'phone', '2026-05-28T11:00Z'],
  ])('%d px: an hour of the strip pressed is looked at', async (px, kind, startUtc) => {
    const page = await at.open('/windows?job=drop', px);
    await page
      .locator(`.strip-hours.${kind} a[href*="${encodeURI(startUtc)}"], .strip-hours.${kind} a[href*="T10:00Z"]`)
      .first()
      .click();
    await page.locator('#start-title').waitFor();
    expect(page.url()).toMatch(/start=2026-05-28T1[01]:00Z$/);
  });

  it.each(addresses)(
    '%s, at all widths: nothing reaches past the side, no label of the strip stands on another',
    async (address) => {
      const page = await at.open(address);
      expect(await overlappingLabels(page, '.strip.desk')).toEqual([]);
      for (const px of [320, 390, 761, 1100]) {
        await page.setViewportSize({ width: px, height: 844 });
        expect(await overflowPx(page), `${px} px`).toBe(0);
      }
      await page.setViewportSize({ width: 390, height: 844 });
      expect(await overlappingLabels(page, '.strip.phone')).toEqual([]);
    },
  );

  it('print, from the night display too: black on white, nothing to press, no navigation', async () => {
    for (const address of [START, '/plan']) {
      const page = await at.open(address, 703);
      await chooseDisplay(page, 'Night display');
      await page.emulateMedia({ media: 'print' });
      const colour = (selector: string, name: 'color' | 'backgroundColor'): Promise<string> =>
        page
          .locator(selector)
          .first()
          .evaluate((node, key) => getComputedStyle(node as never)[key], name);
      expect(await colour('body', 'backgroundColor')).toBe('rgb(255, 255, 255)');
      expect(await colour('h1', 'color')).toBe('rgb(0, 0, 0)');
      for (const part of ['nav', 'button', '.strip.phone']) {
        for (const shown of await page.locator(part).all()) expect(await shown.isVisible(), part).toBe(false);
      }
      expect(await page.locator('.strip.desk').isVisible()).toBe(true);
      expect(await overflowPx(page)).toBe(0);
      await page.emulateMedia({ media: 'screen' });
      await chooseDisplay(page, 'Day display');
    }
  });

  it('planning: the button to stop is there, survives the page asking again, and goes when the plan is there', async () => {
    standing = { kind: 'planning', sinceEpochMs: 0 };
    const page = await at.open('/plan');
    const before = at.server.pressed.length;
    const button = await page.locator('.stop button').elementHandle();
    await page.waitForResponse((response) => response.url().endsWith('/plan'));
    await page.waitForTimeout(50);
    await button?.click();
    await expect.poll(() => at.server.pressed.slice(before)).toEqual(['stop']);
    standing = readyStanding;
    await page.locator('#bill-title').waitFor();
    expect(await page.locator('.stop').isVisible()).toBe(false);
  });

  it('through all of this: no error, no warning, no request to anywhere else', () => {
    expect(at.browser.complaints).toEqual([]);
  });
});

describe.skipIf(chromium === null)('windows and plan without script', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await testServer();
    browser = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled: false });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });

  it('job, handling and start are chosen by forms and links alone', async () => {
    const { page } = browser;
    await page.goto(`${server.url}/windows`);
    await page.selectOption('#choose-job', 'stitch');
    await page.click('#show-windows');
    await page.waitForURL(/job=stitch/);
    await page.fill('#pick-start', '2026-05-28T22:30');
    await page.click('#look-at-start');
    await page.waitForURL(/ship=2026-05-28T22/);
    expect(await page.locator('#start-title').innerText()).toContain('Thu 28 May 22:30');
    await page.click('#move-10-min-earlier');
    await page.waitForURL(/start=2026-05-28T10:20Z/);
    expect(await page.locator('#start-title').innerText()).toContain('Thu 28 May 22:20');
  });

  it('plan: from the bill to the reason of a job, and on to its windows; made again by its button', async () => {
    const { page } = browser;
    await page.goto(`${server.url}/plan`);
    await page.click('.bill a >> nth=0');
    expect(page.url()).toMatch(/#job-\w+$/);
    await page.click('.again button');
    await page.waitForURL(/\/plan$/);
    expect(server.pressed).toEqual(['make']);
    await page.click('.to-windows a >> nth=0');
    await page.locator('#windows-what').waitFor();
  });

  it('no complaint', () => {
    expect(browser.complaints).toEqual([]);
  });
});
