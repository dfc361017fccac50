import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';

interface View {
  readonly name: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly isWhole: boolean;
  readonly style: 'day' | 'night';
  readonly media: 'screen' | 'print';
}

/** Views of every page. A4 is 210 mm wide; with margins of 12 mm, at 96 px an inch, 703 px are printed. */
const VIEWS: readonly View[] = [
  { name: 'desk', widthPx: 1280, heightPx: 800, isWhole: false, style: 'day', media: 'screen' },
  { name: 'desk-whole', widthPx: 1280, heightPx: 800, isWhole: true, style: 'day', media: 'screen' },
  { name: 'phone', widthPx: 390, heightPx: 844, isWhole: true, style: 'day', media: 'screen' },
  { name: 'night-phone', widthPx: 390, heightPx: 844, isWhole: true, style: 'night', media: 'screen' },
  { name: 'print', widthPx: 703, heightPx: 1000, isWhole: true, style: 'day', media: 'print' },
];

/** The browser under a path. */
export const launched = (executablePath: string): Promise<Browser> =>
  chromium.launch({
    executablePath,
    chromiumSandbox: false,
    args: ['--disable-gpu', '--disable-background-networking', '--no-first-run'],
  });

/** A page that hands on what it should not have had to say: errors, warnings, requests to anywhere else. */
export async function watched(browser: Browser, url: string, tell: (complaint: string) => void): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  page.on('console', (message) => {
    // An error page is answered with its status, which the browser notes.
    if (['error', 'warning'].includes(message.type()) && !message.text().includes('status of 40')) tell(message.text());
  });
  page.on('pageerror', (error) => tell(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(url)) tell(`asked ${request.url()}`);
  });
  return page;
}

/** Takes every view of a page; the names of the files, in the order of the views. */
export async function shoot(
  page: Page,
  { url, path, folder, name }: { url: string; path: string; folder: string; name: string },
): Promise<readonly string[]> {
  const files: string[] = [];
  for (const view of VIEWS) {
    const file = `${name}.${view.name}.png`;
    // One after the other: they share a page.
    /* oxlint-disable no-await-in-loop */
    await page.context().addCookies([{ name: 'slatch_style', value: view.style, url }]);
    await page.setViewportSize({ width: view.widthPx, height: view.heightPx });
    await page.emulateMedia({ media: view.media });
    await page.goto(url + path);
    await page.evaluate('document.fonts.ready');
    await page.screenshot({ path: join(folder, file), fullPage: view.isWhole });
    /* oxlint-enable no-await-in-loop */
    files.push(file);
  }
  // In print forms are hidden: whoever fills one in next needs the screen.
  await page.emulateMedia({ media: 'screen' });
  return files;
}
