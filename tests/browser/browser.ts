import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll } from 'vitest';

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

/** The browser of this process: test files run in it one after another, and starting takes a second or more. */
let launched: Promise<Browser> | null = null;

async function browserOfProcess(executablePath: string): Promise<Browser> {
  const start = (): Promise<Browser> => chromium.launch({ executablePath, chromiumSandbox: false, args: SWITCHES });
  launched ??= start();
  if (!(await launched).isConnected()) launched = start();
  return launched;
}

/**
 * A browser for the pages of a test file: one for all files of a process, ended with it. What a file leaves open is closed
 * after its last test, so that none meets another's pages. null: no browser is there.
 */
export function browserOfFile(executablePath: string | null): () => Promise<Browser> {
  afterAll(async () => {
    const contexts = (await launched)?.contexts() ?? [];
    await Promise.all(contexts.map((context) => context.close()));
  });
  return () => {
    if (executablePath === null) throw new Error('no browser: skip what needs it');
    return browserOfProcess(executablePath);
  };
}

/** A page with nothing stored, that notes everything it should not have had to say. */
export async function openPage(
  browser: Browser,
  options: { ownUrl: string; javaScriptEnabled?: boolean },
): Promise<Watched> {
  const context = await browser.newContext({
    javaScriptEnabled: options.javaScriptEnabled ?? true,
    viewport: { width: 1280, height: 860 },
  });
  // Functions handed to the page carry calls of the compiler's helper that keeps their names.
  await context.addInitScript('globalThis.__name = (named) => named;');
  const page = await context.newPage();
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
  return { context, page, complaints, close: () => context.close() };
}
