/** Every page there is, looked at in the same way: by axe, at three widths, by day, at night and on paper. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { ERROR_PAGES, FILES_AND_PARTS, PAGES, type ShownPage } from '../../scripts/screenshots/pages.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { referenceTool } from '../reference-tools.ts';
import type { TestServer } from '../pages/test-server.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { filledServer } from './filled-server.ts';
import { axeViolations, dress, openAllDetails, overflowPx, smallTargetsPx } from './page-checks.ts';
import { getRoutes } from './routes-of.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const ALL: readonly ShownPage[] = [...PAGES, ...ERROR_PAGES];
/** What is pressed with a cold hand on a phone; links inside a sentence are not. */
const MAIN_TARGETS =
  'nav[aria-label=Pages] a, main button, main a.button, main select, main summary, main input[type=text], main input[type=datetime-local], main label.tick';

/** Colours of the heading and of the paper. */
const inkOnPaper = (page: Watched['page']): Promise<string[]> =>
  page.evaluate(
    '[getComputedStyle(document.querySelector("h1")).color, getComputedStyle(document.body).backgroundColor]',
  );

describe('the list of pages', () => {
  it('holds every route that answers GET, and none that does not', () => {
    const listed = new Set([...PAGES.flatMap(({ route }) => route ?? []), ...FILES_AND_PARTS]);
    expect([...listed].toSorted()).toEqual([...new Set(getRoutes())].toSorted());
  });
});

describe.skipIf(chromium === null)('every page, in a browser', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await filledServer();
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(() => browser.page.emulateMedia({ media: 'screen' }));

  it.each(ALL.map((shown, index) => [shown.path, shown.status ?? 200, index % 2 === 0 ? 'day' : 'night'] as const))(
    '%s: status %d, strict policy; nothing wrong by axe (%s first), nothing past the side, large enough to press',
    async (path, status, first) => {
      const { page } = browser;
      await page.setViewportSize({ width: first === 'day' ? 1280 : 390, height: 844 });
      const answer = await page.goto(server.url + path);
      expect(answer?.status()).toBe(status);
      const policy = answer?.headers()['content-security-policy'] ?? '';
      expect(policy).toMatch(/^default-src 'none';/);
      expect(policy).not.toMatch(/unsafe|\*|https?:|data:/);

      await openAllDetails(page);
      await dress(page, first);
      expect(await axeViolations(page)).toEqual([]);
      // Markup is the same in every style: there only colours can be wrong.
      await dress(page, first === 'day' ? 'night' : 'day');
      expect(await axeViolations(page, IS_LONG_RUN ? 'all' : 'colours')).toEqual([]);

      const overflows: number[] = [];
      for (const px of [320, 390, 1280]) {
        await page.setViewportSize({ width: px, height: 844 });
        overflows.push(await overflowPx(page));
      }
      expect(overflows).toEqual([0, 0, 0]);
      expect(await smallTargetsPx(page, MAIN_TARGETS)).toEqual([]);

      // A4 with margins of 12 mm, at 96 px an inch.
      await page.setViewportSize({ width: 703, height: 1000 });
      await page.emulateMedia({ media: 'print' });
      expect(await overflowPx(page)).toBe(0);
      // No page is printed without its heading, and none with anything to press.
      expect(await page.locator('h1').first().isVisible()).toBe(true);
      expect(await page.locator('main button:visible').count()).toBe(0);
      // Printed black on white, whatever the display: what is printed on a background of its own is looked at in the long run.
      expect(await inkOnPaper(page)).toEqual(['rgb(0, 0, 0)', 'rgb(255, 255, 255)']);
      expect(IS_LONG_RUN ? await axeViolations(page, 'colours') : []).toEqual([]);
    },
  );

  it('through all of this: no error, no warning, no request to anywhere else', () => {
    const answered = ERROR_PAGES.map(({ path, status }) => `${status}: ${server.url}${path}`);
    const expected = [...answered, ...browser.complaints.filter((one) => /^console: .*status of 40[04]/.test(one))];
    expect(browser.complaints.filter((one) => !expected.includes(one))).toEqual([]);
  });
});
