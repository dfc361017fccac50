import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { IS_LONG_RUN } from '../long-run.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
  readonly passes: readonly unknown[];
}

/** What axe finds wrong with a page, one line each. Throws when it looked at next to nothing. */
export async function axeViolations(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  // oxlint-disable-next-line typescript/no-unsafe-return -- axe is a global of the page
  const { violations, passes } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run: (options: object) => Promise<AxeResult> } }).axe.run({
      // Only what is wrong is told node by node, and by its markup.
      resultTypes: ['violations'],
      selectors: false,
    }),
  );
  if (passes.length < 20) throw new Error(`axe passed only ${passes.length} rules`);
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`);
}

/** How far the page reaches past its side [px]. */
export const overflowPx = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const { documentElement } = (
      globalThis as unknown as { document: { documentElement: { scrollWidth: number; clientWidth: number } } }
    ).document;
    return documentElement.scrollWidth - documentElement.clientWidth;
  });

/** A narrow phone, a phone, the width at which the desk layout begins, a desk [px]. */
const WIDTHS_PX = [320, 390, 761, 1100];

/** How far the page reaches past its side [px] at every width that matters: all 0 where nothing does. */
export async function overflowAtAllWidths(page: Page): Promise<number[]> {
  const overflows: number[] = [];
  for (const px of WIDTHS_PX) {
    await page.setViewportSize({ width: px, height: 844 });
    overflows.push(await overflowPx(page));
  }
  return overflows;
}

export const NOTHING_PAST_THE_SIDE = WIDTHS_PX.map(() => 0);

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
