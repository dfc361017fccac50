/** The navigator: a track and a forecast of one's own, a plan, a lock, the plan made again, and the lock taken back. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { folderWith, forecastOctets, removeFolders, writePassage } from '../../end-to-end/small-passage.ts';
import { referenceTool } from '../../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from '../browser.ts';
import { waitForRenewedPlan } from './looks.ts';
import { type Program, startProgram } from './program.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

/** Invented: 30 to 40 N, 40 to 30 W, every two degrees. */
const GRID = {
  ni: 6,
  nj: 6,
  first: { lat: 30, lon: 320 },
  iIncrementDeg: 2,
  jIncrementDeg: 2,
  scanningMode: 64,
} as const;

// GPX 1.1 schema (topografix.com/GPX/1/1): a route of rtept.
const GPX = `<?xml version="1.0"?>
<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><rte><name>Invented</name>
<rtept lat="34.5" lon="-38"><name>Here</name></rtept><rtept lat="35.5" lon="-33"><name>There</name></rtept></rte></gpx>`;

describe.skipIf(chromium === null).each([true, false])('the navigator, script %s', (javaScriptEnabled) => {
  let program: Program;
  let browser: Watched;
  let files = '';
  beforeAll(async () => {
    files = folderWith({ 'own.gpx': GPX });
    writeFileSync(join(files, 'own.grib2'), forecastOctets({ grid: GRID, hoursH: 30 }));
    program = await startProgram({ passageFile: writePassage({ passage: { forecasts: [] }, forecast: null }) });
    browser = await openPage(await launch(), { ownUrl: program.url, javaScriptEnabled });
  });
  afterAll(async () => {
    await browser.close();
    await program.stop();
    removeFolders();
  });

  /** The text that says to which hour the job is locked; empty: it is not. */
  const lockedText = async (page: Page): Promise<string> => (await page.locator('.fixed').allInnerTexts()).join(' ');

  it('drops a track and a forecast on the page, ticks a job, and gets a plan', async () => {
    const { page } = browser;
    // The first page loads itself again while there is no plan; the page of passages stands still.
    await page.goto(`${program.url}/document`);
    await page.getByRole('link', { name: 'Begin a passage of your own' }).click();
    await page.getByRole('heading', { level: 1, name: 'A passage of your own' }).waitFor();
    await page.setInputFiles('#new-gpx', join(files, 'own.gpx'));
    await page.setInputFiles('#new-forecast', join(files, 'own.grib2'));
    await page.getByLabel('The clock').selectOption('held');
    await page.locator('summary', { hasText: 'Engine' }).click();
    await page.getByLabel('Change the fuel filter', { exact: false }).first().check();
    await page.getByRole('button', { name: 'Make this passage' }).click();
    await page.locator('.notice', { hasText: 'The passage is at version 1.' }).waitFor();
    // Its plan comes by itself.
    await page.getByRole('heading', { level: 1, name: /^Change the fuel filter/ }).waitFor({ timeout: 200_000 });
    // 38 W lies in the zone three hours behind UTC: the day before there, and both are said, with their weekdays.
    expect(await page.locator('#passage').innerText()).toContain('Tue 21:00 (Wed 00:00 UTC)');
  }, 240_000);

  it('locks the job to its hour, has the plan made again, and takes the lock back', async () => {
    const { page } = browser;
    await page.goto(`${program.url}/plan`);
    const lock = page.getByRole('button', { name: /^Lock it to/ }).first();
    const [, hour = ''] = /(\d\d:\d\d)/.exec(await lock.innerText()) ?? [];
    await lock.click();
    await page.locator('.notice.saved').waitFor();
    await waitForRenewedPlan(program.url);
    await page.goto(`${program.url}/plan`);
    expect(await lockedText(page)).toContain(hour);
    const undo = page.getByRole('button', { name: /^Take (this|the last) change back/ }).first();
    if ((await undo.count()) === 0) await page.goto(`${program.url}/document`);
    await undo.click();
    await page.locator('.notice.saved').waitFor();
    await waitForRenewedPlan(program.url);
    await page.goto(`${program.url}/plan`);
    expect(await lockedText(page)).toBe('');
    expect(await page.getByRole('button', { name: /^Lock it to/ }).count()).toBeGreaterThan(0);
  }, 240_000);

  it('in two tabs: the second save is told, what was typed stands, and nothing is overwritten', async () => {
    const { page, context } = browser;
    const other = await context.newPage();
    for (const tab of [page, other]) await tab.goto(`${program.url}/passage/settings`);
    const probability = (tab: Page) => tab.locator('input[name="wantedProbability"]');
    await probability(page).fill('0.7');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.locator('.notice.saved').waitFor();
    await probability(other).fill('0.9');
    const answer = other.waitForResponse((response) => response.request().method() === 'POST');
    await other.getByRole('button', { name: 'Save', exact: true }).click();
    expect((await answer).status()).toBe(409);
    await other
      .getByText(/not saved/i)
      .first()
      .waitFor();
    expect(await probability(other).inputValue()).toBe('0.9');
    await page.goto(`${program.url}/passage/settings`);
    expect(await probability(page).inputValue()).toBe('0.7');
    await other.close();
  });

  it('nothing complained of', () => {
    expect(browser.complaints).toEqual([]);
  });
});
