import type { JSX } from 'preact';
import type { HourReading, HourRow } from '../../server/presenters/strip-model.ts';

/**
 * What stands at one hour of the strip, and the way to the hours beside it. Script changes the values in place; the hours
 * it needs for that go with it, a line each.
 */
export function HourReadingPart({ reading }: { reading: HourReading }): JSX.Element | null {
  const { terms, rows, shownIndex, more, pressed } = reading;
  const row = rows[shownIndex];
  if (row === undefined) return null;
  const [when = '', utc = '', ...values] = row.values;
  return (
    <div
      class="reading"
      id="reading"
      data-rows={rows.map(lineOf).join('\n')}
      data-shown={shownIndex}
      data-pressed={pressed}
      data-more={more?.hrefBefore}
    >
      <p class="reading-head">
        <b data-value>{when}</b> <small data-value>{utc}</small>
      </p>
      <p class="reading-moves">
        <Move text="Earlier" by={-1} to={rows[shownIndex - 1]} />
        <Move text="Later" by={1} to={rows[shownIndex + 1]} />
        {more !== null && (
          <a class="reading-more" href={`${more.hrefBefore}${row.utc}`}>
            {more.text}
          </a>
        )}
      </p>
      <dl>
        {values.map((value, i) => (
          <div key={terms[i + 2]} class={`wide-${columnCount(terms[i + 2] ?? '', rows, i + 2)}`}>
            <dt>{terms[i + 2]}</dt>
            <dd data-value>{value}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}

/** A link to the hour beside; at the end of the hours it leads nowhere, and stays in its place. */
function Move({ text, by, to }: { text: string; by: -1 | 1; to: HourRow | undefined }): JSX.Element {
  if (to === undefined) {
    return (
      <a data-move={by} role="link" aria-disabled="true">
        {text}
      </a>
    );
  }
  return (
    <a data-move={by} href={to.href}>
      {text}
    </a>
  );
}

const lineOf = ({ utc, values }: HourRow): string =>
  [utc, ...values].map((text) => text.replaceAll(/\s+/g, ' ')).join('\t');

/** Widths of letters and of what stands between cells [px], and the columns cells are measured in. */
const VALUE_LETTER_PX = 7.2;
const TERM_LETTER_PX = 6.2;
const GAP_PX = 12;
const COLUMN_PX = 60;
const MOST_COLUMNS = 14;

/** Columns for the longest value of all hours, so that nothing moves from hour to hour. */
function columnCount(term: string, rows: readonly HourRow[], valueIndex: number): number {
  const mostCount = Math.max(0, ...rows.map(({ values }) => (values[valueIndex] ?? '').length));
  const widePx = Math.max(mostCount * VALUE_LETTER_PX, term.length * TERM_LETTER_PX) + GAP_PX;
  return Math.min(MOST_COLUMNS, Math.max(2, Math.ceil(widePx / COLUMN_PX)));
}
