/** The log in a browser, without script. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage } from './browser.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('the log in a browser', () => {
  let server: TestServer;
  beforeAll(async () => {
    server = await testServer();
  });
  afterAll(() => server.close());

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
