/** The pages of jobs in a browser: found, filled in and read with script on and off, by day, at night and on paper. */
import { describe, expect, it } from 'vitest';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage } from './browser.ts';
import { servedPages } from './served-pages.ts';
import { chooseDisplay, overflowPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

describe.skipIf(chromium === null)('jobs in a browser', () => {
  const at = servedPages(launch);

  it('from the list to a job, edited, wrong at first, then saved', async () => {
    const page = await at.open('/jobs');
    await page.click('text=Rebuild luff box 3');
    await page.click('text=Edit this job');
    await page.fill('#f-name', 'Rebuild luff boxes 3 and 4');
    await page.click('.form-step summary >> nth=0');
    const minutes = page.locator('.form-step >> nth=0').locator('input[id$=work-likelyMin]');
    await minutes.fill('soon');
    // The answer to a form that was refused is no mistake of the page.
    const noted = at.browser.complaints.length;
    await page.click('text="Save"');
    await page.locator('.field-problem').waitFor();
    expect(await page.inputValue('#f-name')).toBe('Rebuild luff boxes 3 and 4');
    expect(await page.locator('[aria-invalid]').inputValue()).toBe('soon');
    await page.locator('[aria-invalid]').fill('20');
    await page.keyboard.press('Enter');
    await page.locator('.notice.saved').waitFor();
    expect(await page.locator('h1').innerText()).toBe('Rebuild luff boxes 3 and 4');
    expect(at.browser.complaints.slice(noted).filter((text) => !text.includes('422'))).toEqual([]);
  });

  it('script off: a step added, moved and named, and kept with the rest', async () => {
    const off = await openPage(await launch(), { ownUrl: at.server.url, javaScriptEnabled: false });
    await off.page.goto(`${at.server.url}/jobs/oil/edit`);
    await off.page.click('text=Add a step');
    await off.page.fill('[id="f-s-step-2-name"]', 'Wipe up');
    await off.page.selectOption('[id="f-s-step-2-place"]', 'deck');
    for (const [key, text] of [
      ['leastMin', '1'],
      ['likelyMin', '2'],
      ['mostMin', '3'],
    ] as const)
      await off.page.fill(`[id="f-s-step-2-work-${key}"]`, text);
    await off.page.fill('[id="f-s-step-2-limits-deckWindKn-noGo"]', 'none');
    await off.page.fill('[id="f-s-step-2-limits-seaHeightM-noGo"]', 'none');
    await off.page.click('[aria-label^="Up: 2."]');
    expect(await off.page.inputValue('[id="f-s-step-2-name"]')).toBe('Wipe up');
    await off.page.click('text="Save"');
    expect(await off.page.locator('.job-step h3').allInnerTexts()).toEqual([
      '1. Wipe up',
      expect.stringMatching(/^2\. Brush, wash/),
    ]);
    expect(off.complaints).toEqual([]);
    await off.close();
  });

  it('on paper, from the night display too: the job black on white, nothing to press', async () => {
    const page = await at.open('/jobs/stitch', 703);
    await chooseDisplay(page, 'Night display');
    await page.emulateMedia({ media: 'print' });
    const background = await page.locator('body').evaluate((node) => getComputedStyle(node as never).backgroundColor);
    expect(background).toBe('rgb(255, 255, 255)');
    for (const part of ['nav', 'button', '.job-buttons'])
      for (const shown of await page.locator(part).all()) expect(await shown.isVisible(), part).toBe(false);
    expect(await page.locator('.job-steps').isVisible()).toBe(true);
    expect(await overflowPx(page)).toBe(0);
  });
});
