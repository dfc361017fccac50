/** The pages on which a passage is changed, in a browser: by day and at night, on a phone, and with script off. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { servedPages } from './served-pages.ts';
import { axeViolations, overflowPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('changing a passage in a browser', () => {
  const at = servedPages(launch);

  it('a speed table looked at on a phone: the page does not grow wider, axe finds nothing', async () => {
    const page = await at.open('/passage/boat/speeds/full-main', 320);
    await page.click('text="Show what changes"');
    await page.locator('.speeds-grid').waitFor();
    expect(await overflowPx(page)).toBe(0);
    expect(await axeViolations(page)).toEqual([]);
  });
});

describe.skipIf(chromium === null)('changing a passage with script off', () => {
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

  it('from the passage to the settings: a wrong figure is told at its input, the right one is saved', async () => {
    const { page } = browser;
    await page.goto(server.url);
    await page.click('.passage-links >> text="Settings"');
    await page.fill('input[name="wantedProbability"]', '7');
    await page.click('text="Save"');
    await page.locator('.field.wrong', { hasText: 'Wanted probability' }).waitFor();
    expect(await page.inputValue('input[name="wantedProbability"]')).toBe('7');
    await page.fill('input[name="wantedProbability"]', '0.7');
    await page.click('text="Save"');
    await page.locator('.notice', { hasText: 'Saved' }).waitFor();
  });

  it('a waypoint later, and a GPX text in the place of all of them', async () => {
    const { page } = browser;
    await page.goto(`${server.url}/passage/track`);
    await page.click('[aria-label="Waypoint 2 later"]');
    await page.locator('#waypoint-2', { hasText: "178°30.0'W" }).waitFor();
    await page.click('main summary');
    await page.fill(
      '#gpx-text',
      '<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><rte><rtept lat="-36.3" lon="178.1"/><rtept lat="-35" lon="-178"/></rte></gpx>',
    );
    await page.click('text="Show what it holds"');
    await page.click('text="Take this track over"');
    await page.locator('.notice', { hasText: 'Saved' }).waitFor();
    expect(await page.locator('.of-track tbody tr').count()).toBe(2);
  });
});
