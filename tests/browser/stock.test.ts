/** The pages of sails and of the locker in a browser: by day and at night, on a phone, and on paper. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { IS_LONG_RUN } from '../long-run.ts';
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
const ADDRESSES = ['/damage', '/locker', '/damage/0', '/locker/pieces/0', '/damage/0/tears/0', '/locker/items/0'];

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

  it.each(displaysOf(IS_LONG_RUN ? ADDRESSES : ADDRESSES.slice(0, 4)))(
    '%s, %s, %d px: axe finds nothing',
    async (address, display, px) => {
      const page = await open(address, px);
      if (display === 'night') await chooseDisplay(page, 'Night display');
      expect(await axeViolations(page)).toEqual([]);
    },
  );

  it.each(ADDRESSES)('%s: nothing reaches past the side, and buttons and inputs are large enough', async (address) => {
    const page = await open(address, 320);
    expect(await overflowAtAllWidths(page)).toEqual(NOTHING_PAST_THE_SIDE);
    expect(
      await smallTargetsPx(page, 'main a.button, main button, main select, main input[type=text], main summary'),
    ).toEqual([]);
  });

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
