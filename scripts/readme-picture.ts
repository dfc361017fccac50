/**
 * Takes the picture of README.md: the top of the Plan page of the demo, by day at the desk.
 *
 *     npm run readme-picture -- [--out FILE] [--chromium PATH]
 *
 * --out       the picture (scripts/screenshots/plan-page.png)
 * --chromium  the browser (/usr/bin/chromium; Debian: apt-get install chromium)
 */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { waitForPlan } from './screenshots/fill-demo.ts';
import { launched, watched } from './screenshots/shoot.ts';
import { startDemo } from './screenshots/start-demo.ts';

const SIZE_PX = { width: 1280, height: 1345 };

const { values } = parseArgs({
  options: {
    out: { type: 'string', default: resolve(import.meta.dirname, 'screenshots/plan-page.png') },
    chromium: { type: 'string', default: '/usr/bin/chromium' },
  },
});

const demo = await startDemo();
const browser = await launched(values.chromium);
try {
  const page = await watched(browser, demo.url, (complaint) => console.error(complaint));
  await waitForPlan(page, demo.url);
  await page.setViewportSize(SIZE_PX);
  await page.goto(`${demo.url}/plan`);
  await page.evaluate('document.fonts.ready');
  await page.screenshot({ path: values.out });
  console.log(values.out);
} finally {
  await browser.close();
  await demo.stop();
}
