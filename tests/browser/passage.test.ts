import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { PlanStanding } from '../../server/deps.ts';
import { readyStanding, testServer, type TestServer } from '../pages/test-server.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { chooseDisplay, overflowPx, overlappingLabels } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('passage page in a browser', () => {
  let standing: PlanStanding = readyStanding;
  let server: TestServer;
  let browser: Watched;

  beforeAll(async () => {
    server = await testServer(() => standing);
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(async () => {
    standing = readyStanding;
    // The display chosen is kept in a cookie: one test must not dress the next.
    await browser.page.context().clearCookies();
  });

  const width = (px: number): Promise<void> => browser.page.setViewportSize({ width: px, height: 800 });
  const heading = (): Promise<string> => browser.page.locator('#next-what').innerText();

  it('a job chosen: card, strip and row change, the address follows, and back leads back', async () => {
    const { page } = browser;
    await width(1280);
    await page.goto(server.url);
    await page.click('#job-hoist');
    await page.locator('#next-what', { hasText: 'Hoist to the deep reef' }).waitFor();
    expect(page.url()).toBe(`${server.url}/?job=hoist`);
    expect(await page.locator('main').count()).toBe(1);
    expect(await page.locator('.strip.desk .lane-wind ~ g .limit-word').first().textContent()).toBe('gust 18');
    expect(await page.locator('tr.chosen th').first().innerText()).toBe('Hoist to the deep reef');
    await page.goBack();
    await page.locator('#next-what', { hasText: 'Drop the mainsail' }).waitFor();
    expect(await page.locator('header').count()).toBe(1);
  });

  it('choosing sends one request for the part, not the page', async () => {
    const { page } = browser;
    await page.goto(server.url);
    const answer = page.waitForResponse((response) => response.url().includes('job=oil'));
    await page.click('#job-oil');
    expect(await (await answer).text()).toMatch(/^<main/);
  });

  it('night chosen on a job’s page: red on black, on that page, and after reload', async () => {
    const { page } = browser;
    await page.goto(`${server.url}/?job=hoist`);
    await chooseDisplay(page, 'Night display');
    expect(page.url()).toBe(`${server.url}/?job=hoist`);
    await page.reload();
    expect(await page.locator('html').getAttribute('class')).toBe('night');
    expect(await page.locator('body').evaluate((body) => getComputedStyle(body as never).backgroundColor)).toBe(
      'rgb(11, 3, 2)',
    );
    await chooseDisplay(page, 'Day display');
    expect(await page.locator('html').getAttribute('class')).toBe('day');
  });

  it.each(IS_LONG_RUN ? ['drop', 'stitch', 'patch', 'block', 'make'] : ['drop', 'stitch', 'block'])(
    'job %s, at all widths: nothing reaches past the side, no label of the strip stands on another',
    async (job) => {
      const { page } = browser;
      await page.goto(`${server.url}/?job=${job}`);
      await page.evaluate('document.fonts.ready');
      for (const px of [320, 360, 390, 760, 761, 1100, 1280, 1920]) {
        await width(px);
        expect(await overflowPx(page), `${px} px`).toBe(0);
      }
      await width(1280);
      expect(await overlappingLabels(page, '.strip.desk')).toEqual([]);
      await width(390);
      expect(await overlappingLabels(page, '.strip.phone')).toEqual([]);
    },
  );

  it('phone: time runs down the strip, and what is touched is large enough', async () => {
    const { page } = browser;
    await width(390);
    await page.goto(server.url);
    expect(await page.locator('.strip.desk').isVisible()).toBe(false);
    const box = await page.locator('.strip.phone').boundingBox();
    expect(box?.height).toBeGreaterThan((box?.width ?? 0) * 1.5);
    await page.click('header summary');
    // 44 px: WCAG 2.2, success criterion 2.5.5 (enhanced target size).
    for (const target of await page.locator('.folded-pages a, main nav a, .jobs a, .style button, summary').all()) {
      expect((await target.boundingBox())?.height).toBeGreaterThanOrEqual(44);
    }
  });

  it('own letters are used', async () => {
    await browser.page.goto(server.url);
    expect(await browser.page.evaluate('document.fonts.ready.then(() => document.fonts.check("15px B612"))')).toBe(
      true,
    );
    expect(
      await browser.page.evaluate('[...document.fonts].filter((face) => face.status === "loaded").length'),
    ).toBeGreaterThan(1);
  });

  it('print, from the night display too: black on white, desk strip, nothing to press', async () => {
    const { page } = browser;
    await page.goto(server.url);
    await chooseDisplay(page, 'Night display');
    await page.emulateMedia({ media: 'print' });
    await width(703);
    expect(await page.locator('body').evaluate((body) => getComputedStyle(body as never).backgroundColor)).toBe(
      'rgb(255, 255, 255)',
    );
    expect(await page.locator('#next-what').evaluate((node) => getComputedStyle(node as never).color)).toBe(
      'rgb(0, 0, 0)',
    );
    expect(
      await page
        .locator('.band.outer')
        .first()
        .evaluate((node) => getComputedStyle(node as never).fill),
    ).toContain('#desk-outer');
    for (const part of ['.style', '.strip.phone']) expect(await page.locator(part).isVisible()).toBe(false);
    // Paper cannot be opened: the pictures in figures are printed unfolded.
    const figures = page.locator('.figures').first();
    expect(await figures.evaluate((node) => node.hasAttribute('open'))).toBe(false);
    expect(await figures.locator('td').first().isVisible()).toBe(true);
    expect(await page.locator('.strip.desk').isVisible()).toBe(true);
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: true });
    expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    await page.emulateMedia({ media: 'screen' });
    await chooseDisplay(page, 'Day display');
  });

  it('plan on its way: the page asks again by itself and shows it', async () => {
    standing = { kind: 'planning', sinceEpochMs: 0 };
    await browser.page.goto(`${server.url}/?job=hoist`);
    expect(await browser.page.locator('#state-title').innerText()).toBe('Planning…');
    standing = readyStanding;
    await browser.page.locator('#next-what').waitFor({ timeout: 10_000 });
    expect(await heading()).toBe('Hoist to the deep reef');
  });

  it('keyboard: a job is reached and chosen, and the focus stays on it', async () => {
    const { page } = browser;
    await width(1280);
    await page.goto(server.url);
    await page.focus('#job-stitch');
    await page.keyboard.press('Enter');
    await page.locator('#next-what', { hasText: 'Stitch the leech' }).waitFor();
    await expect.poll(() => page.evaluate('document.activeElement.id')).toBe('job-stitch');
  });

  it('through all of this: no error, no warning, no request to anywhere else', () => {
    expect(browser.complaints).toEqual([]);
  });
});

describe.skipIf(chromium === null)('passage page without script', () => {
  let server: TestServer;
  let browser: Watched;
  let standing: PlanStanding = readyStanding;

  beforeAll(async () => {
    server = await testServer(() => standing);
    browser = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled: false });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });

  it('jobs are chosen by their links, night by its button', async () => {
    const { page } = browser;
    await page.goto(server.url);
    await page.click('#job-hoist');
    await page.waitForURL(/job=hoist/);
    expect(await page.locator('#next-what').innerText()).toBe('Hoist to the deep reef');
    await chooseDisplay(page, 'Night display');
    expect(page.url()).toBe(`${server.url}/?job=hoist`);
    expect(await page.locator('html').getAttribute('class')).toBe('night');
  });

  it('plan on its way: the browser asks again', async () => {
    standing = { kind: 'planning', sinceEpochMs: 0 };
    await browser.page.goto(server.url);
    standing = readyStanding;
    await browser.page.locator('#next-what').waitFor({ timeout: 15_000 });
    expect(await browser.page.locator('#next-what').innerText()).toBe('Drop the mainsail');
  });

  it('no complaint', () => {
    expect(browser.complaints).toEqual([]);
  });
});
