import type { JSX } from 'preact';
import type { SheetPage } from '../../server/presenters/sheet-page.ts';

type Sheet = SheetPage['sheet'];
type Row = Sheet['steps'][number];

/** What is expected, up to where to start, where to stop, and a box for what is seen. */
export function SheetNumbers({ rows }: { rows: Sheet['numbers'] }): JSX.Element {
  return (
    <table class="sheet-numbers">
      <thead>
        <tr>
          <th scope="col">Strictest of all</th>
          <th scope="col">Expected</th>
          <th scope="col">Start</th>
          <th scope="col">Stop</th>
          <th scope="col">Seen</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ quantity, expected, startAt, stopAt }) => (
          <tr key={quantity}>
            <th scope="row">{quantity}</th>
            <td>{expected}</td>
            <td>{startAt}</td>
            <td class="sheet-stop">{stopAt}</td>
            <td class="sheet-seen" />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The running clock: steps not to be broken off in bold, safe points as boxes, room for the minutes it took. */
export function SheetSteps({ rows }: { rows: Sheet['steps'] }): JSX.Element {
  return (
    <>
      <table class="sheet-steps">
        <thead>
          <tr>
            <th scope="col">Clock</th>
            <th scope="col">Step</th>
            <th scope="col">Min</th>
            <th scope="col">Took</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <StepLine key={index} row={row} clippedTo={clippedTo(rows.slice(0, index))} />
          ))}
        </tbody>
      </table>
      <p class="sheet-key">Bold: not to be broken off. Box: a place to stop.</p>
    </>
  );
}

/** Where the tether is clipped after these rows; null: nothing is said. */
const clippedTo = (rows: readonly Row[]): string | null => rows.findLast((row) => row.kind === 'step')?.clipTo ?? null;

function StepLine({ row, clippedTo: before }: { row: Row; clippedTo: string | null }): JSX.Element {
  if (row.kind === 'done') return <WholeLine clock="done" text={row.name} />;
  if (row.kind === 'wait') return <WholeLine clock={row.clock} text={`${row.text} then, by itself`} />;
  if (row.kind === 'safe-point')
    return (
      <tr class="sheet-safe">
        <td>{row.clock}</td>
        <td colSpan={3}>{row.text}</td>
      </tr>
    );
  const isUnbroken = row.stop !== 'anywhere';
  return (
    <tr>
      <td>{row.clock}</td>
      <td>
        {isUnbroken ? <strong>{row.name}</strong> : row.name}
        <small>
          {' '}
          {row.place}
          {row.clipTo !== null && row.clipTo !== before && `, clip: ${clipPoint(row.clipTo)}`}
          {row.stop === 'never' && ', never stop in it'}
          {row.lookout === 'none' && ', no look-out: alarm on'}
        </small>
      </td>
      <td>{row.lengthMin}</td>
      <td class="sheet-seen" />
    </tr>
  );
}

/** `fixed point at the foot of the mast`: on which side and how long a tether stands in the instructions. */
const clipPoint = (clipTo: string): string => {
  const [point = ''] = clipTo.split(/[,;.]/);
  return point.charAt(0).toLowerCase() + point.slice(1);
};

const WholeLine = ({ clock, text }: { clock: string; text: string }): JSX.Element => (
  <tr>
    <td>{clock}</td>
    <td colSpan={3}>{text}</td>
  </tr>
);

/** What is taken, where it lies, what is left; tools by their place. */
export function SheetParts({ parts, tools }: { parts: Sheet['parts']; tools: Sheet['tools'] }): JSX.Element {
  if (parts.length + tools.length === 0) return <p>Nothing from the locker.</p>;
  return (
    <ul class="sheet-ticks">
      {parts.map(({ takes, place, left }) => (
        <li key={takes}>
          <b>{takes}</b>
          {[place, left].filter((text) => text !== '').map((text) => `; ${text}`)}
        </li>
      ))}
      {tools.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
