import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright-core';

export interface Watched {
  readonly context: BrowserContext;
  readonly page: Page;
  /** Console errors, page errors and requests to anywhere else. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

const SWITCHES = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A browser with an empty profile that notes everything it should not have had to say. */
export async function openBrowser(
  executablePath: string,
  options: { ownUrl: string; javaScriptEnabled?: boolean },
): Promise<Watched> {
  const profile = mkdtempSync(join(tmpdir(), 'slatch-browser-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    chromiumSandbox: false,
    args: SWITCHES,
    javaScriptEnabled: options.javaScriptEnabled ?? true,
    viewport: { width: 1280, height: 860 },
  });
  // Functions handed to the page carry calls of the compiler's helper that keeps their names.
  await context.addInitScript('globalThis.__name = (named) => named;');
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`page: ${error.message}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(options.ownUrl)) complaints.push(`request: ${request.url()}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.status()}: ${response.url()}`);
  });
  const close = async (): Promise<void> => {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  };
  return { context, page, complaints, close };
}
