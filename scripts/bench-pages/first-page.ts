/** What a browser that has never been here loads to show the first page. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright-core';

export interface FirstPage {
  readonly requestCount: number;
  /** Heads and bodies as sent. */
  readonly sentOctets: number;
  /** Until everything was loaded [ms]. */
  readonly elapsedMs: number;
}

/** null: there is no Chromium on this machine. */
export async function firstPage(url: string): Promise<FirstPage | null> {
  const executablePath = chromiumPath();
  if (executablePath === null) return null;
  const browser = await chromium.launch({ executablePath, chromiumSandbox: false, args: ['--disable-gpu'] });
  try {
    const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    // Octets as they came over the line, heads included: Network.loadingFinished of the DevTools protocol.
    const session = await page.context().newCDPSession(page);
    let requestCount = 0;
    let sentOctets = 0;
    session.on('Network.loadingFinished', ({ encodedDataLength }) => {
      requestCount += 1;
      sentOctets += encodedDataLength;
    });
    await session.send('Network.enable');
    const begunMs = performance.now();
    await page.goto(url, { waitUntil: 'networkidle' });
    const elapsedMs = await page.evaluate('performance.getEntriesByType("navigation")[0].loadEventEnd');
    return {
      requestCount,
      sentOctets,
      elapsedMs: typeof elapsedMs === 'number' ? elapsedMs : performance.now() - begunMs,
    };
  } finally {
    await browser.close();
  }
}

function chromiumPath(): string | null {
  const names = (process.env['PATH'] ?? '').split(delimiter).map((folder) => join(folder, 'chromium'));
  return names.find(isProgram) ?? null;
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
