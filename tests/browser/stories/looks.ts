/** What every story asks of the program, whoever walks it. */
import { expect } from 'vitest';
import type { Page } from 'playwright-core';

/** A plan takes a while; the page asks again by itself, with script and without. */
const PLAN_MS = 100_000;

/** Waits until the passage page has a plan: the answer to what is next. */
export async function waitForPlan(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.locator('#next-what').waitFor({ timeout: PLAN_MS });
}

/** Waits until no plan is in the making and there is one, asked beside the browser: its page loads itself again meanwhile. */
export async function waitForRenewedPlan(url: string): Promise<void> {
  const isMade = async (): Promise<boolean> => {
    const text = await (await fetch(`${url}/plan`)).text();
    return text.includes('id="bill-title"') && !text.includes('action="/plan/stop"');
  };
  await expect.poll(isMade, { timeout: PLAN_MS, interval: 500 }).toBe(true);
}

/** How many pages a PDF has. Page objects: ISO 32000-1, 7.7.3.3, each has /Type /Page. */
export const pageCount = (pdf: Buffer): number =>
  [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page(?![a-zA-Z])/g)].length;
