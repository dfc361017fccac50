/** The forecast's page in a browser: with what it holds, where it is silent, and a fetch that has ended badly. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { buildForecast } from '../../lib/forecast/index.ts';
import { parsePassage } from '../../lib/passage/index.ts';
import type { PlanStanding } from '../../server/deps.ts';
import { NOTHING_ASKED } from '../../server/presenters/forecast-fetch.ts';
import { forecastSummary } from '../../server/presenters/forecast-summary.ts';
import { picture } from '../pages/fixture-plan.ts';
import { view } from '../pages/fixture-windows.ts';
import { straightWay } from '../pages/fixture-way.ts';
import { demoFile, demoText } from '../pages/test-documents.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { axeViolations, chooseDisplay, displaysOf, overflowPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

function readyWithForecast(): PlanStanding {
  const bytes = new Uint8Array(readFileSync(path.join(path.dirname(demoFile), 'demo-control.grib2')));
  const files = [{ name: 'demo-control.grib2', bytes }];
  const forecast = buildForecast(files);
  const passage = parsePassage(demoText, 'demo');
  if (!forecast.ok || !passage.ok) throw new Error('the demo cannot be read');
  const way = straightWay({ lat: -36.3, lon: 178.1 }, { lat: -20, lon: 179 });
  const of = { passage: passage.value, forecast: forecast.value, files, ...way, nowEpochMs: picture.nowEpochMs };
  return { kind: 'ready', view: { ...view, forecast: forecastSummary(of) } };
}

describe.skipIf(chromium === null)('the forecast, in a browser', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    const standing = readyWithForecast();
    server = await testServer(() => standing);
    // Nothing listens there: the fetch ends with a problem.
    server.kept.forecasts.beginFetch({ ...NOTHING_ASKED, address: 'http://127.0.0.1:1/none.grib2' });
    server.kept.forecasts.cancelFetch();
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(() => browser.page.context().clearCookies());

  it.each(displaysOf(['/forecast']))(
    '%s, %s, %d px: nothing wrong by axe, nothing past the side',
    async (at, style, px) => {
      const { page } = browser;
      await page.setViewportSize({ width: px, height: 844 });
      await page.goto(server.url + at);
      if (style === 'night') await chooseDisplay(page, 'Night display');
      await page.locator('details').evaluateAll((all) => all.forEach((one) => one.setAttribute('open', '')));
      expect(await page.locator('#fetch-title').textContent()).toContain('none.grib2 did not come');
      expect(await axeViolations(page)).toEqual([]);
      expect(await overflowPx(page)).toBe(0);
    },
  );

  it('buttons and inputs: large enough for a cold hand', async () => {
    const { page } = browser;
    await page.goto(`${server.url}/forecast`);
    const boxes = await page.locator('main button, main select, main .forecast-form input').all();
    const heights = await Promise.all(boxes.map(async (box) => (await box.boundingBox())?.height ?? 0));
    expect(heights.length).toBeGreaterThan(8);
    expect(heights.filter((height) => height < 44)).toEqual([]);
  });

  it('nothing complained of', () => {
    expect(browser.complaints).toEqual([]);
  });
});
