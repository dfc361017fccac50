/** The keyboard alone: every control is reached by Tab, and shows that it is. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { referenceTool } from '../reference-tools.ts';
import type { TestServer } from '../pages/test-server.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { filledServer } from './filled-server.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

/** Numbers the controls that are shown; of the radio buttons of a group Tab reaches one. Text, for it runs in the page. */
const NUMBER_CONTROLS = `(() => {
  const groups = new Set();
  const shown = [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
    .filter((node) => !node.disabled && node.tabIndex >= 0 && node.checkVisibility())
    .filter((node) => {
      if (node.type !== 'radio') return true;
      const isFirst = !groups.has(node.name);
      groups.add(node.name);
      return isFirst;
    });
  shown.forEach((node, index) => node.setAttribute('data-number', String(index)));
  return shown.length;
})()`;

/** Number of the control that has the focus, and whether a line is drawn around it. */
const FOCUSED = `(() => {
  const node = document.activeElement;
  const first = node.type === 'radio' ? document.querySelector('input[type=radio][data-number][name=' + node.name + ']') : node;
  const { outlineStyle, outlineWidth } = getComputedStyle(node);
  const number = first === null ? null : first.getAttribute('data-number');
  return { isBody: node === document.body, number, isSeen: outlineStyle !== 'none' && parseFloat(outlineWidth) > 0, html: node.outerHTML.slice(0, 120) };
})()`;

interface Focused {
  readonly isBody: boolean;
  readonly number: string | null;
  readonly isSeen: boolean;
  readonly html: string;
}

/** Presses Tab from the top of the page until the focus leaves it. */
async function tabThrough(page: Page, mostCount: number): Promise<readonly Focused[]> {
  const met: Focused[] = [];
  for (let count = 0; count < mostCount; count++) {
    // oxlint-disable-next-line no-await-in-loop -- one key after the other
    await page.keyboard.press('Tab');
    // oxlint-disable-next-line no-await-in-loop
    const focused = await page.evaluate<Focused>(FOCUSED);
    if (focused.isBody) break;
    met.push(focused);
  }
  return met;
}

describe.skipIf(chromium === null)('the keyboard', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await filledServer();
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });

  it.each(['/', '/log', '/messages', '/jobs/oil/hours'])(
    '%s: Tab reaches every control, and each shows the focus',
    async (path) => {
      const { page } = browser;
      await page.goto(server.url + path);
      const controlCount = await page.evaluate<number>(NUMBER_CONTROLS);
      expect(controlCount).toBeGreaterThan(12);
      // A field of date and time is several stops.
      const met = await tabThrough(page, controlCount * 2 + 40);
      const reached = new Set(met.map(({ number }) => number));
      const missed = Array.from({ length: controlCount }, (_, index) => String(index)).filter(
        (one) => !reached.has(one),
      );
      expect(missed).toEqual([]);
      // One of several stops is enough: inside a field of date and time the browser marks its own parts.
      const seen = new Set(met.filter(({ isSeen }) => isSeen).map(({ number }) => number));
      expect(met.filter(({ number }) => !seen.has(number)).map(({ html }) => html)).toEqual([]);
    },
  );

  it('the first stop leads past the navigation', async () => {
    const { page } = browser;
    await page.goto(server.url);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(page.url()).toMatch(/#passage$/);
  });
});
