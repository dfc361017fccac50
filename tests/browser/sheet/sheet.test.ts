/** The deck sheet in a browser: printed for every job of the demo, in a type that can be read. */
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { demoPicture, demoPlan } from '../../brief/sheet/demo-plan.ts';
import { view } from '../../pages/fixture-windows.ts';
import { testServer, type TestServer } from '../../pages/test-server.ts';
import { referenceTool } from '../../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from '../browser.ts';
import { overflowPx } from '../page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

/** Page objects of a PDF (ISO 32000-1, 7.7.3.3: each has /Type /Page). */
const pageCount = (pdf: Buffer): number => [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page(?![a-zA-Z])/g)].length;

/** Size of the smallest words of the sheet, in CSS pixels. */
const SMALLEST_PX = `Math.min(...[...document.querySelectorAll('main *')]
  .filter((e) => e.offsetParent !== null && [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim() !== ''))
  .map((e) => parseFloat(getComputedStyle(e).fontSize)))`;

/** Forty steps more, like the last. */
const MANY_STEPS = `{ const body = document.querySelector('.sheet-steps tbody'), row = body.rows[body.rows.length - 2];
  for (let k = 0; k < 40; k++) body.append(row.cloneNode(true)); }`;

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

  it.each(demoPlan.jobs.map(({ jobId }) => jobId))('%s: one page of A4', async (jobId) => {
    const { page } = browser;
    await page.goto(`${server.url}/jobs/${jobId}/sheet`);
    await page.evaluate('document.fonts.ready');
    const pdf = await page.pdf({ format: 'A4', preferCSSPageSize: false });
    expect(pageCount(pdf)).toBe(1);
    // Nothing is cut off: all of it lies inside the width that is printed.
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 741, height: 1070 });
    expect(await overflowPx(page)).toBe(0);
    // CSS Values 4, 6.2: 1 pt is 4/3 px.
    expect(await page.evaluate(SMALLEST_PX)).toBeGreaterThanOrEqual(9.5 * (4 / 3) - 0.01);
    await page.emulateMedia({ media: null });
  });

  it('a job with very many steps: goes on over two pages', async () => {
    const { page } = browser;
    await page.goto(`${server.url}/jobs/drop/sheet`);
    await page.evaluate(MANY_STEPS);
    expect(pageCount(await page.pdf({ format: 'A4', preferCSSPageSize: false }))).toBe(2);
  });

  it('nothing complained of', () => {
    expect(browser.complaints).toEqual([]);
  });
});
