/** What is printed. */
import type { MeasuredPage } from './measure.ts';

const PATH_WIDTH = 58;
const cells = (texts: readonly string[]): string => texts.map((text) => text.padStart(9)).join('');
const ms = (value: number): string => value.toFixed(value < 100 ? 1 : 0);
const kilobytes = (octets: number): string => (octets / 1000).toFixed(1);

export const pagesHeading = (): string =>
  'page, ms and kB'.padEnd(PATH_WIDTH) +
  cells(['cold', 'median', 'p95', 'most', 'busy', 'busy p95', '× 404', 'body', 'sent', 'n']);

/** @param referenceMs median of the page that says there is none: what every page costs at least on this machine */
export const pageRow = (page: MeasuredPage, referenceMs: number): string =>
  shortened(page.path).padEnd(PATH_WIDTH) +
  cells([
    ms(page.coldMs),
    ms(page.medianMs),
    ms(page.p95Ms),
    ms(page.mostMs),
    ms(page.busyMs.median),
    ms(page.busyMs.p95),
    (page.medianMs / referenceMs).toFixed(1),
    kilobytes(page.octets),
    kilobytes(page.sentOctets),
    String(page.count),
  ]);

const shortened = (path: string): string => (path.length < PATH_WIDTH ? path : `${path.slice(0, PATH_WIDTH - 2)}…`);
