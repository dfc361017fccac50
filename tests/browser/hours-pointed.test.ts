/** An hour of a strip pointed at, pressed, touched and reached by keys: what stands there is read in one place. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { axeViolations } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const SLIDER = '.strip-stack:visible .hour-slider';

const readText = (page: Page): Promise<string> => page.locator('.reading').innerText();
const whenOf = (page: Page): Promise<string> => page.locator('.reading-head').innerText();
const openAt = async (watched: Watched, address: string, px = 1280): Promise<Page> => {
  await watched.page.setViewportSize({ width: px, height: 844 });
  await watched.page.goto(address);
  await watched.page.evaluate('document.fonts.ready');
  return watched.page;
};
/** The link of the hour on the strip that is seen. */
const hourOf = (page: Page, utc: string): ReturnType<Page['locator']> =>
  page.locator(`.strip-hours:visible a[href*="${utc}"]`);

/** Height of the reading [px] at every hour, gone through by keys from the first. */
const heightsHourByHour = (page: Page): Promise<number[]> =>
  page.evaluate(() => {
    interface Part {
      readonly dispatchEvent: (event: unknown) => void;
      readonly getAttribute: (name: string) => string | null;
      readonly getBoundingClientRect: () => { readonly height: number };
    }
    const { document, KeyboardEvent } = globalThis as unknown as {
      readonly document: { readonly querySelector: (selector: string) => Part };
      readonly KeyboardEvent: new (type: string, options: object) => unknown;
    };
    const slider = document.querySelector('.hour-slider');
    return Array.from({ length: Number(slider.getAttribute('aria-valuemax')) }, () => {
      slider.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true }));
      return Math.round(document.querySelector('.reading').getBoundingClientRect().height);
    });
  });

/** How far the page under its head reaches past its side [px]. */
const pastMainPx = (page: Page): Promise<number> =>
  page.locator('main').evaluate((node) => {
    const { scrollWidth, clientWidth } = node as unknown as { scrollWidth: number; clientWidth: number };
    return scrollWidth - clientWidth;
  });

describe.skipIf(chromium === null)('hours pointed at', () => {
  let server: TestServer;
  let browser: Watched;
  let plain: Watched;

  beforeAll(async () => {
    server = await testServer();
    browser = await openPage(await launch(), { ownUrl: server.url });
    plain = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled: false });
  });
  afterAll(async () => {
    await browser.close();
    await plain.close();
    await server.close();
  });
  it.each(['/', '/windows?job=drop', '/plan'])(
    '%s: pointed at, read; left, the hour before stands again',
    async (path) => {
      const page = await openAt(browser, server.url + path);
      const before = await readText(page);
      await hourOf(page, '2026-05-28T10:00Z').hover();
      expect(await whenOf(page)).toBe('Thu 28 May 22:00 Thu 10:00 UTC');
      await page.mouse.move(2, 2);
      expect(await readText(page)).toBe(before);
    },
  );

  it.each(['/', '/plan'])('%s: pressed, the hour stays, and the page stays where it is', async (path) => {
    const page = await openAt(browser, server.url + path);
    await hourOf(page, '2026-05-28T10:00Z').click();
    await page.mouse.move(2, 2);
    expect(await whenOf(page)).toContain('Thu 28 May 22:00');
    expect(page.url()).toBe(server.url + path);
    // The band that marks it stands on both drawings.
    expect(await page.locator('.strip-hours a.is-read').count()).toBe(2);
  });

  it.each([1280, 390])('%d px: keys move by hours, to the ends, and what is read is told', async (px) => {
    const page = await openAt(browser, `${server.url}/`, px);
    const slider = page.locator(SLIDER);
    await slider.focus();
    const start = await whenOf(page);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    expect(await whenOf(page)).toContain('Thu 28 May 11:00');
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^Thu 28 May 11:00, Wed 23:00 UTC, Light .*Deck wind /);
    await page.keyboard.press('PageDown');
    expect(await whenOf(page)).toContain('Thu 28 May 17:00');
    await page.keyboard.press('End');
    expect(await slider.getAttribute('aria-valuenow')).toBe(await slider.getAttribute('aria-valuemax'));
    expect(await page.locator('.reading [data-move="1"]').getAttribute('aria-disabled')).toBe('true');
    await page.keyboard.press('Home');
    expect(await whenOf(page)).toBe(start);
  });

  it('“Later” and “Earlier”: in place, from the hour that stands', async () => {
    const page = await openAt(browser, `${server.url}/`);
    const first = await readText(page);
    await page.click('.reading >> text=Later');
    expect(await whenOf(page)).toContain('Thu 28 May 10:00');
    await page.click('.reading >> text=Earlier');
    expect(await readText(page)).toBe(first);
    expect(page.url()).toBe(`${server.url}/`);
  });

  it('a start at the hour that is read: one press away, by pointer or by Enter', async () => {
    const page = await openAt(browser, `${server.url}/?job=drop`);
    await page.locator(SLIDER).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.locator('#start-title').waitFor();
    expect(page.url()).toBe(`${server.url}/windows?job=drop&start=2026-05-27T22:00Z`);
  });

  it('a part swapped in can be read too', async () => {
    const page = await openAt(browser, `${server.url}/windows`);
    await page.selectOption('#choose-job', 'bolt');
    await page.click('#show-windows');
    await page.locator('#windows-what', { hasText: 'bolt' }).waitFor();
    await page.locator(SLIDER).focus();
    const before = await whenOf(page);
    await page.keyboard.press('ArrowRight');
    expect(await whenOf(page)).not.toBe(before);
  });

  it.each([1280, 390, 320])('%d px: nothing moves from hour to hour, nothing reaches past the side', async (px) => {
    const page = await openAt(browser, `${server.url}/windows?job=bolt`, px);
    const heights = await heightsHourByHour(page);
    expect(heights.length).toBeGreaterThan(30);
    expect([...new Set(heights)]).toHaveLength(1);
    expect(await pastMainPx(page)).toBe(0);
  });

  it('script and server tell the same of every hour', async () => {
    const page = await openAt(browser, `${server.url}/?job=drop`);
    await page.locator(SLIDER).focus();
    for (const utc of ['2026-05-28T03:00Z', '2026-05-30T10:00Z']) {
      await hourOf(page, utc).hover();
      const byScript = await readText(page);
      const other = await openAt(plain, `${server.url}/?job=drop&hour=${utc}`);
      expect(await readText(other)).toBe(byScript);
    }
  });

  it('touched: read, not opened; the link beside opens it', async () => {
    const context = await (await launch()).newContext({ hasTouch: true, viewport: { width: 390, height: 844 } });
    const page = await context.newPage();
    await page.goto(`${server.url}/windows?job=drop`);
    await hourOf(page, '2026-05-28T00:00Z').scrollIntoViewIfNeeded();
    await hourOf(page, '2026-05-28T00:00Z').tap();
    expect(await whenOf(page)).toContain('Thu 28 May 12:00');
    expect(page.url()).not.toContain('start=');
    // It stands at the foot of the screen while the strip is scrolled behind it.
    const box = await page.locator('.reading').boundingBox();
    expect([box === null, (box?.y ?? 0) > 0, (box?.y ?? 0) + (box?.height ?? 0) <= 844]).toEqual([false, true, true]);
    await page.locator('.reading-more').tap();
    await page.locator('#start-title').waitFor();
    expect(page.url()).toMatch(/start=2026-05-28T00:00Z$/);
    await context.close();
  });

  it.each([
    ['/?job=stitch', 'stitch'],
    ['/plan', null],
  ])('%s without script: an hour pressed is shown in the page, for the same job', async (path, job) => {
    const page = await openAt(plain, server.url + path);
    await hourOf(page, '2026-05-28T10:00Z').click();
    await page.waitForURL(/hour=2026-05-28T10:00Z/);
    expect(await whenOf(page)).toBe('Thu 28 May 22:00 Thu 10:00 UTC');
    await page.click('.reading >> text=Later');
    await page.waitForURL(/hour=2026-05-28T11:00Z/);
    expect(await whenOf(page)).toBe('Thu 28 May 23:00 Thu 11:00 UTC');
    expect(new URL(page.url()).searchParams.get('job')).toBe(job);
    expect(await page.locator('.hour-slider').first().isVisible()).toBe(false);
  });

  it('without script on the windows page: pressed, looked at as a start, and read', async () => {
    const page = await openAt(plain, `${server.url}/windows?job=drop`);
    await hourOf(page, '2026-05-28T10:00Z').click();
    await page.locator('#start-title').waitFor();
    expect(await whenOf(page)).toContain('Thu 28 May 22:00');
  });

  it('an hour that is none: the page says what was expected', async () => {
    for (const path of ['/', '/plan']) {
      const answer = await fetch(`${server.url}${path}?hour=teatime`);
      expect([answer.status, await answer.text()]).toEqual([400, expect.stringContaining('No such hour')]);
    }
  });

  it('with an hour moved to by keys: axe finds nothing', async () => {
    const page = await openAt(browser, `${server.url}/windows?job=bolt`);
    await page.locator(SLIDER).press('ArrowRight');
    expect(await axeViolations(page)).toEqual([]);
  });

  it('the order of the work, on a phone: large enough to press, nothing past the side', async () => {
    for (const px of [320, 390]) {
      const page = await openAt(browser, `${server.url}/plan/order`, px);
      expect(await pastMainPx(page)).toBe(0);
      const smallest = await page
        .locator('.order-page button, .order-page select, .order-page summary')
        .evaluateAll((nodes) =>
          Math.min(
            ...nodes.map(
              (node) =>
                (node as unknown as { getBoundingClientRect: () => { height: number } }).getBoundingClientRect()
                  .height || 44,
            ),
          ),
        );
      // WCAG 2.2, success criterion 2.5.5 (enhanced target size).
      expect(Math.ceil(smallest)).toBeGreaterThanOrEqual(44);
    }
  });

  it('nobody complained: no error in the console, nothing asked of anybody else', () => {
    expect([...browser.complaints, ...plain.complaints]).toEqual([]);
  });
});
