import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { overflowPx, overlappingLabels } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('watchkeeper panel in a browser', () => {
  let server: TestServer;
  let browser: Watched;

  beforeAll(async () => {
    server = await testServer();
    browser = await openPage(await launch(), { ownUrl: server.url });
    await browser.page.goto(`${server.url}/plan/watchkeeper`);
    await browser.page.evaluate('document.fonts.ready');
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });

  it.each([
    [1280, '.watch-desk', '.watch-phone'],
    [390, '.watch-phone', '.watch-desk'],
  ])(
    '%d px: %s is shown, no label of it stands on another, nothing reaches past the side',
    async (px, seen, hidden) => {
      const { page } = browser;
      await page.setViewportSize({ width: px, height: 844 });
      expect([await page.locator(seen).isVisible(), await page.locator(hidden).isVisible()]).toEqual([true, false]);
      expect(await page.locator(`${seen} text`).count()).toBeGreaterThan(20);
      expect(await overlappingLabels(page, seen)).toEqual([]);
      for (const summary of await page.locator('#watchkeeper summary').all()) await summary.click();
      expect(await overflowPx(page)).toBe(0);
      for (const summary of await page.locator('#watchkeeper summary').all()) await summary.click();
    },
  );

  it('print: the desk drawing, sleep hatched, black curve', async () => {
    const { page } = browser;
    await page.setViewportSize({ width: 703, height: 1000 });
    await page.emulateMedia({ media: 'print' });
    const styleOf = (selector: string, name: 'fill' | 'stroke'): Promise<string> =>
      page
        .locator(selector)
        .first()
        .evaluate((node, key) => getComputedStyle(node as never)[key], name);
    expect([await page.locator('.watch-desk').isVisible(), await page.locator('.watch-phone').isVisible()]).toEqual([
      true,
      false,
    ]);
    expect(await styleOf('.watch-desk .block.sleep', 'fill')).toContain('#watch-desk-sleep');
    expect(await styleOf('.watch-desk .curve.median', 'stroke')).toBe('rgb(0, 0, 0)');
    expect(await overlappingLabels(page, '.watch-desk')).toEqual([]);
    await page.emulateMedia({ media: 'screen' });
  });

  it('no complaint', () => {
    expect(browser.complaints).toEqual([]);
  });
});
