/** The display changed in the middle of writing: with script nothing that was typed is lost. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

/** Paper colour, and what the browser's own parts are told. */
const DISPLAY = `[
  document.documentElement.className,
  getComputedStyle(document.body).colorScheme || 'normal',
  document.querySelector('meta[name=color-scheme]').content,
  getComputedStyle(document.documentElement).backgroundColor,
].join(' ')`;

describe.skipIf(chromium === null)('the night button', () => {
  let server: TestServer;
  let watched: Watched;
  beforeAll(async () => {
    server = await testServer();
  });
  afterEach(() => watched.close());
  afterAll(() => server.close());

  it('with script: the page changes where it stands, what is typed stays, the next page has it', async () => {
    watched = await openPage(await launch(), { ownUrl: server.url });
    const { page } = watched;
    await page.goto(`${server.url}/new`);
    const day = await page.evaluate(DISPLAY);
    const note = page.locator('#new-track');
    await note.fill("36°18.0'S 178°06.0'E");
    await page.evaluate('globalThis.isStillThisPage = true');
    const told = page.waitForResponse((response) => response.url().endsWith('/style'));
    await page.locator('form.style button').click();
    await told;
    expect(await page.evaluate('globalThis.isStillThisPage')).toBe(true);
    expect(await note.inputValue()).toBe("36°18.0'S 178°06.0'E");
    const night = await page.evaluate(DISPLAY);
    expect(await page.locator('form.style button').textContent()).toMatch(/^Day/);
    await page.goto(`${server.url}/new`);
    expect(await page.evaluate(DISPLAY)).toBe(night);
    await page.locator('form.style button').click();
    expect(await page.evaluate(DISPLAY)).toBe(day);
    expect(await page.locator('form.style button').textContent()).toMatch(/^Night/);
    expect(watched.complaints).toEqual([]);
  });

  it('without script: the page comes anew, by night', async () => {
    watched = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled: false });
    await watched.page.goto(`${server.url}/plan`);
    await watched.page.locator('form.style button').click();
    await watched.page.locator('html.night').waitFor();
    expect(new URL(watched.page.url()).pathname).toBe('/plan');
    expect(watched.complaints).toEqual([]);
  });

  it('the server cannot be reached: eyes first, the page changes all the same', async () => {
    watched = await openPage(await launch(), { ownUrl: server.url });
    await watched.page.goto(`${server.url}/plan`);
    await watched.page.context().setOffline(true);
    await watched.page.locator('form.style button').click();
    await watched.page.locator('html.night').waitFor();
    expect(await watched.page.locator('form.style button').getAttribute('value')).toBe('day');
  });
});
