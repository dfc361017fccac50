import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ok } from '../../lib/result/index.ts';
import { demoText } from '../pages/test-documents.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { axeViolations, chooseDisplay, displaysOf, overflowPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);

/** A passage that was edited here, of a file that has changed since: every notice and button there can be. */
async function edited(): Promise<TestServer> {
  const server = await testServer();
  const { documents } = server.kept;
  const text = documents.passageText();
  if (!text.ok) throw new Error('no passage');
  await documents.savePassage({ expected: text.value, change: (file) => ok({ ...file, name: 'Edited here' }) });
  server.kept.writeFile(demoText.replace('"name": "Torn main', '"name": "Mended main'));
  return server;
}

describe.skipIf(chromium === null)('the passage as it is kept, in a browser', () => {
  let server: TestServer;
  let browser: Watched;
  beforeAll(async () => {
    server = await edited();
    browser = await openPage(await launch(), { ownUrl: server.url });
  });
  afterAll(async () => {
    await browser.close();
    await server.close();
  });
  afterEach(() => browser.page.context().clearCookies());

  it.each(displaysOf(['/document', '/?saved=1.2']))(
    '%s, %s, %d px: nothing wrong by axe, nothing past the side',
    async (path, style, px) => {
      const { page } = browser;
      await page.setViewportSize({ width: px, height: 844 });
      await page.goto(server.url + path);
      if (style === 'night') await chooseDisplay(page, 'Night display');
      expect(await page.locator('.notice').count()).toBe(path === '/document' ? 1 : 2);
      expect(await axeViolations(page)).toEqual([]);
      expect(await overflowPx(page)).toBe(0);
    },
  );

  it('nothing complained of', () => {
    expect(browser.complaints).toEqual([]);
  });
});

describe.skipIf(chromium === null).each([true, false])(
  'script %s: the file taken over, and back',
  (javaScriptEnabled) => {
    let server: TestServer;
    let browser: Watched;
    beforeEach(async () => {
      server = await edited();
      browser = await openPage(await launch(), { ownUrl: server.url, javaScriptEnabled });
    });
    afterEach(async () => {
      await browser.close();
      await server.close();
    });

    it('a new passage, said so; the edited one is among the others and is shown again; nothing is sent twice by loading again', async () => {
      const { page } = browser;
      await page.goto(server.url);
      await page.click('text=Take the file over as a new passage');
      await page.locator('.kept', { hasText: 'Passage 2, version 1' }).waitFor();
      expect(await page.locator('.notice.saved').innerText()).toContain('The passage is at version 1.');
      await page.reload();
      await page.locator('.kept', { hasText: 'Passage 2, version 1' }).waitFor();
      await page.click('.kept a');
      await page.locator('h1', { hasText: 'The passage as it is kept' }).waitFor();
      await page.click('text=Show this one');
      await page.locator('.kept', { hasText: 'Passage 1, version 2' }).waitFor();
      expect(browser.complaints).toEqual([]);
    });

    it('from a page that is out of date: not saved, said first, and the keyboard is there', async () => {
      const { page } = browser;
      await page.goto(server.url);
      const { documents } = server.kept;
      const text = documents.passageText();
      if (!text.ok) throw new Error('no passage');
      await documents.savePassage({ expected: text.value, change: (file) => ok({ ...file, name: 'Edited again' }) });
      await page.click('text=Take the file over as a new passage');
      await page.locator('.notice.not-saved').waitFor();
      expect(await page.locator('.not-saved .problem-what').innerText()).toContain('it is at version 3');
      expect(await page.locator(':focus').innerText()).toMatch(/^Not saved/);
    });
  },
);
