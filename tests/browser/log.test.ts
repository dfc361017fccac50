/** The pages of the log and of all plans in a browser: by day and at night, on a phone, without script. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { view } from '../pages/fixture-windows.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import {
  axeViolations,
  chooseDisplay,
  displaysOf,
  NOTHING_PAST_THE_SIDE,
  overflowAtAllWidths,
  smallTargetsPx,
} from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const ADDRESSES = ['/log', '/plans?from=1&to=2', '/log/new/observation', '/log/new/job?job=stitch', '/log/1'];

describe.skipIf(chromium === null)('log and plans in a browser', () => {
  let server: TestServer;
  let browser: Watched;

  beforeAll(async () => {
    server = await testServer();
    for (const version of [1, 1]) server.kept.plans.keepInHistory(view, { number: 1, version, logNumber: 0 });
    const at = { atUtc: '2026-05-27T15:00Z' } as const;
    const seen = { kind: 'observation', ...at, lat: -36.3, lon: 178.1, pressureHpa: 1009 } as const;
    const write = (entry: Parameters<typeof server.kept.log.writeLog>[0]['entry'], formToken: string) =>
      server.kept.log.writeLog({ passageNumber: 1, entry, atEpochMs: 0, formToken });
    await write(seen, 'a');
    await write({ kind: 'correction', ...at, corrects: 1, by: { ...seen, pressureHpa: 1011 } }, 'b');
    await write({ kind: 'job', ...at, jobId: 'oil', event: 'started' }, 'c');
    await write({ kind: 'correction', ...at, corrects: 3, by: null }, 'd');
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(async () => {
    await browser.page.context().clearCookies();
  });

  const open = async (address: string, px = 1280): Promise<Watched['page']> => {
    await browser.page.setViewportSize({ width: px, height: 844 });
    await browser.page.goto(server.url + address);
    await browser.page.evaluate('document.fonts.ready');
    return browser.page;
  };

  it.each(displaysOf(ADDRESSES))('%s, %s, %d px: axe finds nothing', async (address, display, px) => {
    const page = await open(address, px);
    if (display === 'night') await chooseDisplay(page, 'Night display');
    expect(await axeViolations(page)).toEqual([]);
  });

  it.each(ADDRESSES)('%s: nothing reaches past the side, and buttons and inputs are large enough', async (address) => {
    const page = await open(address, 320);
    expect(await overflowAtAllWidths(page)).toEqual(NOTHING_PAST_THE_SIDE);
    expect(
      await smallTargetsPx(page, 'main a.button, main button, main select, main input[type=text], main summary'),
    ).toEqual([]);
  });

  it('without script: a place is written, corrected, withdrawn', async () => {
    const plain = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled: false });
    const { page } = plain;
    await page.goto(`${server.url}/log`);
    await page.click('text="Weather, place, sails"');
    await page.fill('input[name="position"]', '36 20 S 178 30 E');
    await page.click('text="Save"');
    await page.locator('.notice.logged', { hasText: "36°20.0'S 178°30.0'E" }).waitFor();
    await page.locator('.log-row', { hasText: "178°30.0'E" }).locator('text="Correct"').click();
    await page.fill('input[name="position"]', '36 21 S 178 30 E');
    await page.click('text="Save"');
    const row = page.locator('.log-row', { hasText: "36°21.0'S" });
    await row.locator('text=Corrected').waitFor();
    await row.locator('text="Withdraw"').click();
    await page.locator('.log-row.withdrawn s', { hasText: "36°21.0'S" }).waitFor();
    expect(plain.complaints).toEqual([]);
    await plain.close();
  });
});
