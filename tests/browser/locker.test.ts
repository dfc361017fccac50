/** The cut sheet and what changes once it is sawn, in a browser: by day and at night, on a phone, and on paper. */
import { describe, expect, it } from 'vitest';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage } from './browser.ts';
import { servedPages } from './served-pages.ts';
import { chooseDisplay, overflowPx, overlappingLabels } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('the locker in a browser', () => {
  const at = servedPages(launch);

  it.each([
    ['/locker/cut', 1280, 'day'],
    ['/locker/cut', 390, 'night'],
    ['/locker/sawn', 390, 'day'],
  ] as const)(
    '%s, %d px, %s: nothing reaches past the side, no label stands on another',
    async (address, px, display) => {
      const page = await at.open(address, px);
      if (display === 'night') await chooseDisplay(page, 'Night display');
      await page.setViewportSize({ width: 320, height: 844 });
      expect(await overflowPx(page)).toBe(0);
      expect(await overlappingLabels(page, '.bar-picture')).toEqual([]);
    },
  );

  it('on paper, from the night display too: the sheet black on white, nothing to press', async () => {
    const page = await at.open('/locker/cut', 703);
    await chooseDisplay(page, 'Night display');
    await page.emulateMedia({ media: 'print' });
    const background = await page.locator('body').evaluate((node) => getComputedStyle(node as never).backgroundColor);
    expect(background).toBe('rgb(255, 255, 255)');
    for (const part of ['nav', 'button', '.locker-buttons'])
      for (const shown of await page.locator(part).all()) expect(await shown.isVisible(), part).toBe(false);
    expect(await page.locator('.bar-picture').first().isVisible()).toBe(true);
  });

  it('script off: a table read, looked at, and taken over', async () => {
    const off = await openPage(await launch(), { ownUrl: at.server.url, javaScriptEnabled: false });
    await off.page.goto(`${at.server.url}/locker`);
    await off.page.click('text=Read a table in the place of this list');
    await off.page.fill('#table-text', 'item,amount,unit\nwaxed twine,55,m\n');
    await off.page.click('text=Show what changes');
    expect(await off.page.locator('.locker-changes li').count()).toBe(44);
    await off.page.click('text=Take this table over');
    expect(await off.page.locator('.notice.saved').isVisible()).toBe(true);
    expect(await off.page.locator('.of-stock tbody tr').allInnerTexts()).toEqual([
      expect.stringMatching(/waxed twine\s+55 m/),
    ]);
    expect(off.complaints).toEqual([]);
    await off.close();
  });
});
