import type { Page } from 'playwright-core';

const PLAN_MS = 600_000;

/** Waits until there is a plan, and none in the making. */
export async function waitForPlan(page: Page, url: string): Promise<void> {
  const until = performance.now() + PLAN_MS;
  for (;;) {
    // The page is asked again and again: each look follows from the one before.
    // oxlint-disable-next-line no-await-in-loop
    await page.goto(`${url}/plan`);
    // oxlint-disable-next-line no-await-in-loop
    const [bills, stops] = await Promise.all([
      page.locator('#bill-title').count(),
      page.locator('form[action="/plan/stop"]').count(),
    ]);
    if (bills > 0 && stops === 0) return;
    if (performance.now() > until) throw new Error('no plan after ten minutes');
    // oxlint-disable-next-line no-await-in-loop
    await page.waitForTimeout(1000);
  }
}

/** By its own forms: an observation in the log, a second plan made of it, and a message. */
export async function fillDemo(page: Page, url: string): Promise<void> {
  await page.goto(`${url}/log/new/observation`);
  await page.fill('input[name="position"]', '36 20 S 178 12 E');
  await page.click('text="Save"');
  await page.locator('.notice.logged').waitFor();
  await waitForPlan(page, url);
  await page.goto(`${url}/messages`);
  await page.getByLabel('Sender').fill('SH');
  await page.getByRole('button', { name: 'Write it' }).click();
  await page.locator('#part-1').waitFor();
}
