/** The router ashore: a plan made there, written as a message, and read back on board from a store of its own. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { removeFolders, writePassage } from '../../end-to-end/small-passage.ts';
import { referenceTool } from '../../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from '../browser.ts';
import { waitForRenewedPlan } from './looks.ts';
import { type Program, startProgram } from './program.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const KEY = 'an invented key of many letters';

/** When the plan that is shown starts a job, in UTC as a message says it: `27 May 03:10`. */
async function plannedStart(url: string, jobId: string): Promise<string> {
  const plan = (await (await fetch(`${url}/plans/1.json`)).json()) as {
    jobs: readonly { jobId: string; startUtc: string | null }[];
  };
  const startUtc = plan.jobs.find((job) => job.jobId === jobId)?.startUtc ?? '';
  return `${Number(startUtc.slice(8, 10))} May ${startUtc.slice(11, 16)}`;
}

describe.skipIf(chromium === null)('the router', () => {
  let shore: Program;
  let boat: Program;
  beforeAll(async () => {
    // On board there is the passage, and no forecast: all that is known comes by message.
    const aboard = writePassage({ passage: { forecasts: [] }, forecast: null });
    [shore, boat] = await Promise.all([
      startProgram({ passageFile: writePassage(), key: KEY }),
      startProgram({ passageFile: aboard, key: KEY }),
    ]);
  });
  afterAll(async () => {
    await shore.stop();
    await boat.stop();
    removeFolders();
  });

  const open = async ({ url }: Program, javaScriptEnabled: boolean): Promise<Watched> =>
    openPage(await launch(), { ownUrl: url, javaScriptEnabled });

  const read = async (page: Page, text: string): Promise<void> => {
    await page.goto(`${boat.url}/messages`);
    await page.getByLabel(/^Text as it came/).fill(text);
    await page.getByRole('button', { name: 'Read it' }).click();
    await page.locator('.message-one').first().waitFor();
  };

  it.each([true, false])(
    'script %s: plan, message, copied; on board read, verified against the key, kept; a letter changed is found',
    async (hasScript) => {
      const ashore = await open(shore, hasScript);
      await waitForRenewedPlan(shore.url);
      await ashore.page.goto(shore.url);
      const start = await plannedStart(shore.url, 'first');
      await ashore.page.getByRole('link', { name: 'Messages', exact: true }).click();
      await ashore.page.getByRole('heading', { name: 'Write one' }).waitFor();
      await ashore.page.getByLabel('Sender').fill('SH');
      await ashore.page.getByRole('button', { name: 'Write it' }).click();
      await ashore.page.locator('#part-1').waitFor();
      const areas = await ashore.page.locator('textarea[id^=part-]').all();
      const parts = await Promise.all(areas.map((area) => area.inputValue()));
      expect(parts.length).toBeGreaterThan(0);
      expect(await ashore.page.locator('main').innerText()).toMatch(/signed/i);

      const aboard = await open(boat, hasScript);
      const { page } = aboard;
      // As it comes: quoted in a mail, the parts in any order.
      await read(page, `Good morning,\n> ${parts.toReversed().join('\n> ')}\nBest, SH`);
      const found = await page.locator('.message-one').first().innerText();
      expect(found).toContain('the signature fits the key on board');
      expect(found).toMatch(new RegExp(`first.{0,20} ${start}`));
      await page.getByRole('button', { name: 'Keep it in the list' }).click();
      await page.locator('.notice.message').waitFor();
      await page.goto(`${boat.url}/messages`);
      expect(await page.locator('.message-list li').first().innerText()).toContain('SH');

      const [first = ''] = parts;
      const at = first.indexOf(';', first.indexOf(';') + 1) + 3;
      const changed = `${first.slice(0, at)}${first[at] === 'A' ? 'B' : 'A'}${first.slice(at + 1)}`;
      await page.getByLabel(/^Text as it came/).fill([changed, ...parts.slice(1)].join('\n'));
      await page.getByRole('button', { name: 'Read it' }).click();
      await page.waitForLoadState('load');
      expect(await page.locator('main').innerText()).not.toContain('the signature fits the key on board');

      expect([ashore.complaints, aboard.complaints.filter((one) => !one.includes('422'))]).toEqual([[], []]);
      await ashore.close();
      await aboard.close();
    },
    240_000,
  );
});
