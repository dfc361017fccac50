import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readyStanding, testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { chooseDisplay, overflowPx, overlappingLabels } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

const { plan } = readyStanding.view;
/** The fixture's entries, a mile or two apart over the date line. */
const entries = plan.entries.map((entry, i) => ({ ...entry, lat: -36 + (i % 3) * 0.1, lon: 179.5 + i * 0.1 }));
const runs = entries.flatMap(({ jobId, startUtc, kind }, i) =>
  kind === 'work' && jobId !== null ? [{ jobId, startUtc, towardDegTrue: i * 40, speedKn: 4, heldMin: 90 }] : [],
);
const leg = 'rhumb' as const;
const track = {
  waypoints: [
    { lat: -36.3, lon: 178.1, name: null, leg },
    { lat: -34, lon: -175, name: null, leg },
  ],
};
const way = { now: { lat: -36.2, lon: 179.2 }, track, runs };

describe.skipIf(chromium === null)('the map in a browser', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await testServer(() => ({
      ...readyStanding,
      view: { ...readyStanding.view, plan: { ...plan, entries }, way },
    }));
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });

  it.each([
    ['desk', 1280],
    ['phone', 320],
  ] as const)('%s, %d px: one map, no label on another, nothing past the side', async (size, px) => {
    const { page } = browser;
    await page.setViewportSize({ width: px, height: 800 });
    await page.goto(server.url);
    if (size === 'phone') await chooseDisplay(page, 'Night display');
    await page.evaluate('document.fonts.ready');
    expect(await page.locator('.sea-map:visible').count()).toBe(1);
    expect(await page.locator(`.sea-map.${size} .map-run`).count()).toBeGreaterThan(3);
    expect(await overlappingLabels(page, `.sea-map.${size}`)).toEqual([]);
    expect(await overflowPx(page)).toBe(0);
  });

  it('no complaint', () => {
    expect(browser.complaints).toEqual([]);
  });
});
