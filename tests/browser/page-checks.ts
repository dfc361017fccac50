import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { IS_LONG_RUN } from '../long-run.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
  readonly passes: readonly unknown[];
}

/**
 * What axe finds wrong with a page, one line each. Throws when it looked at next to nothing.
 *
 * @param rules `all`: with the size of targets of WCAG 2.2 (2.5.8, 24 px), which axe leaves out unless told; `colours`:
 *   contrast alone
 */
export async function axeViolations(page: Page, rules: 'all' | 'colours' = 'all'): Promise<string[]> {
  if (!(await page.evaluate('"axe" in globalThis'))) await page.evaluate(axeSource);
  const asked =
    rules === 'all'
      ? { rules: { 'target-size': { enabled: true } } }
      : { runOnly: { type: 'rule', values: ['color-contrast'] } };
  // oxlint-disable-next-line typescript/no-unsafe-return -- axe is a global of the page
  const { violations, passes } = await page.evaluate(
    (options) =>
      (globalThis as unknown as { axe: { run: (options: object) => Promise<AxeResult> } }).axe.run({
        ...options,
        // Only what is wrong is told node by node, and by its markup.
        resultTypes: ['violations'],
        selectors: false,
      }),
    asked,
  );
  if (passes.length < (rules === 'all' ? 20 : 1)) throw new Error(`axe passed only ${passes.length} rules`);
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`);
}

/** Dresses the page as the cookie would have it: a class of its root is all that differs. */
export const dress = (page: Page, style: 'day' | 'night'): Promise<void> =>
  page.locator('html').evaluate((root, name) => void Object.assign(root, { className: name }), style);

/** Opens all that is folded. */
export const openAllDetails = (page: Page): Promise<void> =>
  page.locator('details').evaluateAll((all) => all.forEach((one) => one.setAttribute('open', '')));

/** How far the page reaches past its side [px]. */
export const overflowPx = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const { documentElement } = (
      globalThis as unknown as { document: { documentElement: { scrollWidth: number; clientWidth: number } } }
    ).document;
    return documentElement.scrollWidth - documentElement.clientWidth;
  });

/**
 * Heights [px] on a phone of what is pressed and is smaller than 44 px: WCAG 2.2, success criterion 2.5.5 (enhanced target
 * size).
 *
 * @param pressed selector of what is pressed
 */
export async function smallTargetsPx(page: Page, pressed: string): Promise<number[]> {
  await page.setViewportSize({ width: 390, height: 844 });
  return page.locator(pressed).evaluateAll((nodes) =>
    nodes
      .map((node) => (node as unknown as { getBoundingClientRect: () => { height: number } }).getBoundingClientRect())
      .map(({ height }) => height)
      .filter((height) => height > 0 && Math.ceil(height) < 44),
  );
}

/** Pairs of labels of a drawing that stand on one another. */
export const overlappingLabels = (page: Page, drawing: string): Promise<string[]> =>
  page.locator(`${drawing} text`).evaluateAll((nodes) => {
    interface Box {
      left: number;
      right: number;
      top: number;
      bottom: number;
      width: number;
    }
    const shown = (nodes as unknown as { getBoundingClientRect: () => Box; textContent: string }[])
      .map((node) => ({ box: node.getBoundingClientRect(), text: node.textContent.trim() }))
      .filter(({ box, text }) => text !== '' && box.width > 0);
    const crosses = (a: Box, b: Box): boolean =>
      Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1.5 &&
      Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4;
    return shown.flatMap((one, i) =>
      shown.slice(i + 1).flatMap((other) => (crosses(one.box, other.box) ? [`${one.text} / ${other.text}`] : [])),
    );
  });

/**
 * Displays and widths [px] to look at each page in: day and night, at the desk and on the phone; in the short run every
 * page once, by turns at night on the phone and by day at the desk.
 */
export function displaysOf(
  pages: readonly string[],
): readonly (readonly [page: string, 'day' | 'night', px: number])[] {
  const all = [
    ['night', 390],
    ['day', 1280],
    ['night', 1280],
    ['day', 390],
  ] as const;
  return pages.flatMap((page, index) =>
    (IS_LONG_RUN ? all : [all[index % 2] ?? all[0]]).map((display) => [page, ...display] as const),
  );
}

/** Presses the button and waits for the page that answers it, whose button offers the other display. */
export async function chooseDisplay(page: Page, style: 'Night display' | 'Day display'): Promise<void> {
  const other = style === 'Night display' ? 'Day display' : 'Night display';
  await page.click(`text=${style}`);
  await page.locator(`text=${other}`).waitFor();
  await page.waitForLoadState('load');
}
