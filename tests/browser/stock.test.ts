/** A tear marked on a page of sails, in a browser. */
import { describe, expect, it } from 'vitest';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile } from './browser.ts';
import { servedPages } from './served-pages.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('sails and locker in a browser', () => {
  const at = servedPages(launch);

  it('a tear marked and made jobs of: on the page of its sewing', async () => {
    const page = await at.open('/damage');
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
