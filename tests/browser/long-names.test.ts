/** Names a hundred letters long without a gap, from right to left, or with the signs of markup: WCAG 2.2, 1.4.10, at 320 px. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { referenceTool } from '../reference-tools.ts';
import { demoText } from '../pages/test-documents.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { openAllDetails, overflowPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

const LATIN = `${'W'.repeat(100)}<b class="mark-up">😀`;
const HEBREW = `שלום${'ש'.repeat(80)}`;

interface Named {
  readonly name?: string;
}
const demo = JSON.parse(demoText) as {
  readonly boat: Named;
  readonly track: readonly Named[];
  readonly jobs: readonly Named[];
};
const longNames = JSON.stringify({
  ...demo,
  name: `${LATIN}${HEBREW}`,
  boat: { ...demo.boat, name: LATIN },
  track: demo.track.map((waypoint, index) => ({ ...waypoint, name: index % 2 === 0 ? LATIN : HEBREW })),
  jobs: demo.jobs.map((job, index) => ({ ...job, name: index % 2 === 0 ? LATIN : HEBREW })),
});

const PAGES = [
  '/',
  '/jobs',
  '/jobs/oil',
  '/jobs/oil/edit',
  '/jobs/oil/hours',
  '/jobs/oil/sheet',
  '/damage',
  '/locker',
  '/locker/cut',
  '/plan/order',
  '/log',
  '/document',
  '/passage/track',
  '/passage/boat',
  `/jobs/${'q'.repeat(200)}`,
];

describe.skipIf(chromium === null)('names that are long', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await testServer(undefined, longNames);
    browser = await openPage(await launch(), { ownUrl: server.url });
    await browser.page.setViewportSize({ width: 320, height: 700 });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });

  it.each(PAGES)('%s: nothing past the side of a narrow screen, and no markup of a name', async (path) => {
    const { page } = browser;
    await page.goto(server.url + path);
    await openAllDetails(page);
    expect(await overflowPx(page)).toBeLessThanOrEqual(0);
    expect(await page.locator('.mark-up').count()).toBe(0);
  });
});
