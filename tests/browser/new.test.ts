/** A passage of one's own in a browser: the form with script on and off, with what is wrong, on every width. */
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { demoFile } from '../pages/test-documents.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { axeViolations } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const control = path.join(path.dirname(demoFile), 'demo-control.grib2');
const TRACK = "36°18.0'S 178°06.0'E\n36°42.0'S 178°30.0'W";

describe.skipIf(chromium === null)('a passage of one’s own, in a browser', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await testServer();
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(() => browser.page.context().clearCookies());

  it('nothing complained of', () => {
    expect(browser.complaints).toEqual([]);
  });

  it.each([true, false])(
    'script %s: put right what is wrong, send it again, and the passage is there',
    async (hasScript) => {
      const watched = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled: hasScript });
      const { page } = watched;
      await page.goto(`${server.url}/document`);
      await page.click('text=Begin a passage of your own');
      await page.fill('#new-track', TRACK);
      await page.fill('#new-waterlineM', '900');
      await page.setInputFiles('#new-forecast', control);
      await page.locator('summary', { hasText: 'Engine' }).click();
      await page.getByLabel('Change the fuel filter', { exact: false }).first().check();
      await page.click('text=Make this passage');
      const wrong = page.locator('.form-wrong a');
      await wrong.waitFor();
      expect(await wrong.textContent()).toContain('"900" cannot be used here.');
      // Axe is a script itself.
      expect(hasScript ? await axeViolations(page) : []).toEqual([]);
      await wrong.click();
      await page.fill('#new-waterlineM', '11');
      await page.click('text=Make this passage');
      await page.locator('text=The passage is at version 1.').waitFor();
      const document = await server.kept.documents.passageDocument();
      if (!document.ok) throw new Error(JSON.stringify(document.problems));
      expect(document.value.passage.jobs.map(({ from }) => from)).toEqual(['fuel-filter']);
      expect(document.value.passage.forecasts).toHaveLength(1);
      expect(document.value.passage.track.waypoints).toHaveLength(2);
      expect(watched.complaints.filter((one) => !one.includes('422'))).toEqual([]);
      await watched.close();
    },
  );

  it.each([true, false])('script %s: a file added to the forecast’s list', async (hasScript) => {
    const watched = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled: hasScript });
    const { page } = watched;
    await page.goto(`${server.url}/forecast`);
    await page.setInputFiles('#upload-forecast', control);
    await page.click('text=Add them to the list above');
    await page.locator('.forecast-files', { hasText: 'demo-control.grib2' }).waitFor();
    expect(page.url()).toBe(`${server.url}/forecast#files`);
    expect(watched.complaints).toEqual([]);
    await watched.close();
  });
});
