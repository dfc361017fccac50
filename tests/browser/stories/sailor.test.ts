/** The lone sailor: the demo as it opens, the job that is next, its sheet for the deck; with script and without. */
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { folderWith, removeFolders } from '../../end-to-end/small-passage.ts';
import { IS_LONG_RUN } from '../../long-run.ts';
import { demoFile, demoText } from '../../pages/test-documents.ts';
import { referenceTool } from '../../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from '../browser.ts';
import { axeViolations } from '../page-checks.ts';
import { pageCount, waitForPlan } from './looks.ts';
import { type Program, startProgram } from './program.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

interface DemoJob {
  readonly id: string;
  readonly after?: readonly string[];
}

/** The demo; in the short run two of its jobs in 36 h of its control forecast, planned in seconds. */
function demo(): { readonly passageFile?: string } {
  if (IS_LONG_RUN) return {};
  const file = JSON.parse(demoText) as { jobs: readonly DemoJob[]; settings: object };
  const jobs = file.jobs.filter(({ id }) => ['oil', 'drop'].includes(id));
  const forecasts = [join(dirname(demoFile), 'demo-control.grib2')];
  const text = JSON.stringify({ ...file, jobs, forecasts, settings: { ...file.settings, horizonH: 36 } });
  return { passageFile: join(folderWith({ 'demo-passage.json': text }), 'demo-passage.json') };
}

describe.skipIf(chromium === null)('the sailor', () => {
  let program: Program;
  beforeAll(async () => {
    program = await startProgram(demo());
  });
  afterAll(async () => {
    await program.stop();
    removeFolders();
  });

  const open = async (javaScriptEnabled: boolean): Promise<Watched> =>
    openPage(await launch(), { ownUrl: program.url, javaScriptEnabled });

  it.each([true, false])(
    'script %s: sees what to do next, when and how sure, on one screen at the desk and on the phone',
    async (hasScript) => {
      const { page, complaints, close } = await open(hasScript);
      await waitForPlan(page, program.url);
      for (const viewport of [
        { width: 1280, height: 800 },
        { width: 390, height: 844 },
      ]) {
        await page.setViewportSize(viewport);
        await page.goto(program.url);
        const what = page.getByRole('heading', { level: 1 });
        expect(await what.innerText()).toMatch(/^(Oil the seized|Drop and lash|Make the new|Change the fuel)/);
        const card = page.locator('#next-what').locator('xpath=..');
        const said = await card.innerText();
        // A time of ship's day with its weekday, UTC beside it, and how sure.
        expect(said).toMatch(/(Mon|Tue|Wed|Thu|Fri|Sat|Sun) .*\d\d:\d\d/);
        expect(said).toContain('UTC');
        expect(said).toMatch(/\d+ of 100|\d+ %/);
        const box = await what.boundingBox();
        expect(box?.y ?? Infinity).toBeLessThan(viewport.height / 2);
      }
      expect(complaints).toEqual([]);
      await close();
    },
  );

  it.each([true, false])('script %s: goes to the next job, and takes its sheet on deck', async (hasScript) => {
    const { page, complaints, close } = await open(hasScript);
    await waitForPlan(page, program.url);
    const jobs = page.locator('.jobs a');
    const names = await jobs.allInnerTexts();
    expect(names.length).toBeGreaterThan(1);
    await page.getByRole('link', { name: 'Drop and lash the mainsail', exact: true }).first().click();
    await page.getByRole('heading', { level: 1, name: 'Drop and lash the mainsail' }).waitFor();
    await page.getByRole('link', { name: 'Deck sheet' }).first().click();
    await page.waitForURL(/\/jobs\/drop\/sheet/);
    await page
      .getByRole('heading', { name: /Drop and lash the mainsail/ })
      .first()
      .waitFor();
    const words = await page.locator('main').innerText();
    expect(words).toMatch(/stop/i);
    expect(words).toMatch(/\d+ kn/);
    expect(words).toMatch(/UTC/);
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(pageCount(pdf)).toBe(1);
    await page.emulateMedia({ media: 'print' });
    expect(
      await page
        .getByRole('heading', { name: /Drop and lash the mainsail/ })
        .first()
        .isVisible(),
    ).toBe(true);
    expect(await page.locator('nav').first().isVisible()).toBe(false);
    // The same sheet as plain text, for a printer that takes no more.
    const text = await (await fetch(`${program.url}/jobs/drop/sheet.txt`)).text();
    expect(text).toContain('Drop and lash the mainsail');
    expect(complaints).toEqual([]);
    await close();
  });

  it('sees which forecast it was made of: its base time is on the page', async () => {
    const { page, close } = await open(true);
    await waitForPlan(page, program.url);
    await page.getByRole('link', { name: 'Forecast', exact: true }).click();
    await page.waitForURL(/\/forecast/);
    // Base time of the demo's control: 2026-05-27 12:00 UTC (sample-forecasts/README.md).
    expect(await page.locator('main').innerText()).toMatch(/27 May.*12:00|Wed 12:00 UTC/);
    expect(await axeViolations(page)).toEqual([]);
    await close();
  });
});
