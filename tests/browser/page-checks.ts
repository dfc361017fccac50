import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

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
    (globalThis as unknown as { axe: { run: () => Promise<AxeResult> } }).axe.run(),
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

export const displays = ['Night display', 'Day display'] as const;

/** Presses the button and waits for the page that answers it, whose button offers the other display. */
export async function chooseDisplay(page: Page, style: (typeof displays)[number]): Promise<void> {
  const other = style === 'Night display' ? 'Day display' : 'Night display';
  await page.click(`text=${style}`);
  await page.locator(`text=${other}`).waitFor();
  await page.waitForLoadState('load');
}
