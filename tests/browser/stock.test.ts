/** A tear marked on a page of sails, in a browser. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('sails and locker in a browser', () => {
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
  afterEach(async () => {
    await browser.page.context().clearCookies();
    await browser.page.emulateMedia({ media: 'screen' });
  });

  const open = async (address: string, px = 1280): Promise<Watched['page']> => {
    await browser.page.setViewportSize({ width: px, height: 844 });
    await browser.page.goto(server.url + address);
    await browser.page.evaluate('document.fonts.ready');
    return browser.page;
  };

  it('a tear marked and made jobs of: on the page of its sewing', async () => {
    const page = await open('/damage');
    await page.click('text="Mark another tear"');
    await page.fill('input[name="id"]', 'foot');
    await page.fill('input[name="lengthM"]', '0.4');
    await page.fill('input[name="counted.panel"]', '2');
    await page.click('text="Save"');
    await page.locator('h3', { hasText: 'foot: tear of 0.4 m.' }).waitFor();
    await page.locator('article', { hasText: 'foot: tear' }).locator('text=Sew below').click();
    await page.locator('h1', { hasText: 'Sew the tear, 0.4 m' }).waitFor();
    expect(page.url()).toMatch(/\/jobs\/sew-foot/);
  });
});
