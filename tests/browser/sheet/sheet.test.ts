/** The deck sheet in a browser: looked at in both displays, and printed for every job of the demo. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { demoPicture, demoPlan } from '../../brief/sheet/demo-plan.ts';
import { view } from '../../pages/fixture-windows.ts';
import { testServer, type TestServer } from '../../pages/test-server.ts';
import { referenceTool } from '../../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from '../browser.ts';
import { axeViolations, chooseDisplay, displaysOf, overflowPx } from '../page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

/** Page objects of a PDF (ISO 32000-1, 7.7.3.3: each has /Type /Page). */
const pageCount = (pdf: Buffer): number => [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page(?![a-zA-Z])/g)].length;

describe.skipIf(chromium === null)('deck sheets in a browser', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await testServer(() => ({ kind: 'ready', view: { ...view, plan: demoPlan, picture: demoPicture } }));
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(() => browser.page.context().clearCookies());

  it.each(displaysOf(['/jobs/drop/sheet', '/jobs/masthead/sheet']))(
    '%s, %s, %d px: nothing wrong by axe, nothing past the side',
    async (path, style, px) => {
      const { page } = browser;
      await page.setViewportSize({ width: px, height: 844 });
      await page.goto(server.url + path);
      if (style === 'night') await chooseDisplay(page, 'Night display');
      expect(await axeViolations(page)).toEqual([]);
      expect(await overflowPx(page)).toBe(0);
      await page.setViewportSize({ width: 320, height: 844 });
      expect(await overflowPx(page)).toBe(0);
    },
  );

  it.each(demoPlan.jobs.map(({ jobId }) => jobId))('%s: one page of A4', async (jobId) => {
    const { page } = browser;
    await page.goto(`${server.url}/jobs/${jobId}/sheet`);
    await page.evaluate('document.fonts.ready');
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: false });
    expect(pageCount(pdf)).toBe(1);
    // Nothing is cut off: all of it lies inside the width that is printed.
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 733, height: 1062 });
    expect(await overflowPx(page)).toBe(0);
    await page.emulateMedia({ media: null });
  });

  it('nothing complained of', () => {
    expect(browser.complaints).toEqual([]);
  });
});
