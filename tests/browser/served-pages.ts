/** The pages and a browser before them, for the tests of one `describe`. */
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { openPage, type Watched } from './browser.ts';

export interface ServedPages {
  readonly server: TestServer;
  readonly browser: Watched;
  /** Goes to an address in a window so wide, and waits for its letters. */
  readonly open: (address: string, px?: number) => Promise<Watched['page']>;
}

/** One server and one page for all tests; after each the display is that of a new reader, on a screen. */
export function servedPages(
  launch: () => Promise<Browser>,
  serve: () => Promise<TestServer> = () => testServer(),
): ServedPages {
  let begun: { readonly server: TestServer; readonly browser: Watched } | null = null;
  const now = () => {
    if (begun === null) throw new Error('asked for before the tests begin');
    return begun;
  };
  beforeAll(async () => {
    const server = await serve();
    begun = { server, browser: await openPage(await launch(), { ownUrl: server.url }) };
  });
  afterAll(async () => {
    await now().browser.close();
    await now().server.close();
  });
  afterEach(async () => {
    const { page } = now().browser;
    await page.context().clearCookies();
    await page.emulateMedia({ media: 'screen' });
  });
  return {
    get server() {
      return now().server;
    },
    get browser() {
      return now().browser;
    },
    open: async (address, px = 1280) => {
      const { server, browser } = now();
      await browser.page.setViewportSize({ width: px, height: 844 });
      await browser.page.goto(server.url + address);
      await browser.page.evaluate('document.fonts.ready');
      return browser.page;
    },
  };
}
