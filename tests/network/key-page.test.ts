/** The page that asks for the access key, in a browser: with script and without, at the desk and on the phone. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { browserOfFile, openPage, type Watched } from '../browser/browser.ts';
import { axeViolations, dress, overflowPx, smallTargetsPx } from '../browser/page-checks.ts';
import { referenceTool } from '../reference-tools.ts';
import { ACCESS_KEY, keyServer, type KeyServer } from './with-key.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const PRESSED = 'header a.to-display:visible, header button, main button, main a.as-button, main input[type=text]';

describe.skipIf(chromium === null)('the page of the key, in a browser', () => {
  let server: KeyServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await keyServer();
  });
  afterAll(() => server.close());
  afterEach(() => browser.close());

  const open = async (javaScriptEnabled: boolean): Promise<Watched['page']> => {
    browser = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled });
    browser.page.setDefaultTimeout(20_000);
    return browser.page;
  };
  const give = async (page: Watched['page'], key: string): Promise<void> => {
    await page.getByLabel('The key').fill(key);
    await page.getByRole('button', { name: 'Open' }).click();
  };
  const looked = async (page: Watched['page']): Promise<void> => {
    expect(await axeViolations(page)).toEqual([]);
    // Markup is the same in every style: there only colours can be wrong.
    await dress(page, 'night');
    expect(await axeViolations(page, 'colours')).toEqual([]);
    await dress(page, 'day');
    const overflows: number[] = [];
    for (const px of [320, 390, 1280]) {
      await page.setViewportSize({ width: px, height: 844 });
      overflows.push(await overflowPx(page));
    }
    expect(overflows).toEqual([0, 0, 0]);
    expect(await smallTargetsPx(page, PRESSED)).toEqual([]);
  };

  it('asked for, wrong, right: on to the page one wanted; signed out: nothing of it by going back', async () => {
    const page = await open(true);
    await page.goto(`${server.url}/jobs?x=1`);
    expect(await page.title()).toBe('Access key – Slatch');
    expect(await page.locator('header nav, header a.to-display').count()).toBe(0);

    await give(page, 'not the key of this boat');
    expect(await page.getByRole('alert').textContent()).toContain('That is not the key.');
    await looked(page);

    await give(page, ACCESS_KEY.toUpperCase().replaceAll('-', ' '));
    await page.locator('h1', { hasText: 'Jobs' }).waitFor();
    expect(page.url()).toBe(`${server.url}/jobs?x=1`);
    await page.setViewportSize({ width: 1280, height: 844 });

    await page.getByRole('link', { name: 'Sign out' }).click();
    await looked(page);
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByLabel('The key').waitFor();
    await page.goBack();
    await page.goBack();
    expect(await page.content()).not.toMatch(/Torn main|mainsail/);
  });

  it('without script: the same', async () => {
    const page = await open(false);
    await page.goto(`${server.url}/locker`);
    await give(page, 'wrong');
    await give(page, ACCESS_KEY);
    await page.waitForURL(`${server.url}/locker`);
    await page.getByRole('link', { name: 'Sign out' }).click();
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByLabel('The key').waitFor();
    expect((await page.goto(`${server.url}/locker`))?.status()).toBe(401);
  });

  it('the session over while a form was filled in: the key given beside it, the page loaded again: saved', async () => {
    const page = await open(true);
    await page.goto(`${server.url}/log/new/observation`);
    await give(page, ACCESS_KEY);
    await page.locator('input[name=pressureHpa]').fill('1007');
    server.passMs(86_400_001);
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.locator('h1', { hasText: 'Nothing was saved' }).waitFor();
    await looked(page);

    const [beside] = await Promise.all([
      page.context().waitForEvent('page'),
      page.getByRole('link', { name: 'Give the key' }).click(),
    ]);
    await give(beside, ACCESS_KEY);
    await beside.locator('input[name=pressureHpa]').waitFor();
    await page.reload();
    await page.waitForURL(`${server.url}/log?logged=*`);
    expect(await page.content()).toContain('1007');
    // The two pages that were refused, and nothing else.
    const refused = /^401: |status of 401/;
    expect(browser.complaints.filter((one) => !refused.test(one))).toEqual([]);
  });
});
