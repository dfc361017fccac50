import type { JSX } from 'preact';
import type { SleepDayRow, SleepRow } from '../../server/presenters/watch-sleeps.ts';
import { TableHead } from './table-head.tsx';

const heads = ['Ship’s time', 'Alertness, points', 'Nobody looks out', 'What it buys'] as const;

/** Each sleep with its alarm, what it does for alertness, what it costs in look-out, and what it is for. */
export function SleepsPart(props: { sleeps: readonly SleepRow[]; lookout: string | null }): JSX.Element {
  return (
    <div class="watch-part">
      <h2>What each sleep buys</h2>
      {props.lookout !== null && <p class="lookout-rule">{props.lookout}</p>}
      {props.sleeps.length === 0 ? (
        <p>No sleep is planned.</p>
      ) : (
        <table role="table" class="watch-table sleeps" aria-label="What each sleep buys">
          <TableHead heads={heads} />
          <tbody role="rowgroup">
            {props.sleeps.map((sleep) => (
              <tr key={sleep.key} role="row">
                <th scope="row" role="rowheader">
                  {sleep.ship} <small>{sleep.lasts}</small> <small class="alarm">{sleep.alarm}</small>
                </th>
                <td role="cell" data-head="Alertness">
                  {sleep.alertness}
                </td>
                <td role="cell" data-head="Nobody looks out">
                  {sleep.nobodyLooks} <small>{sleep.closeIn}</small>
                </td>
                <td role="cell" class="buys">
                  {sleep.buys}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}

/** Drawn before the words: full, half, empty. */
const marks: Readonly<Record<SleepDayRow['standing'], string>> = {
  enough: '●',
  'below-wanted': '◐',
  'below-least': '○',
};

const dayHeads = ['24 hours from', 'Slept', 'Wanted', 'Least', 'Which is'] as const;

/** Sleep of each 24 h beside what is wanted and what is least. */
export function SleepDaysPart({
  days,
  priorSleep,
}: {
  days: readonly SleepDayRow[];
  priorSleep: readonly string[];
}): JSX.Element {
  return (
    <div class="watch-part">
      <h2>Sleep in each 24 hours</h2>
      <p class="subtitle">Slept: the share of the time in the bunk that is sleep.</p>
      {days.length === 0 ? (
        <p>Nothing is planned.</p>
      ) : (
        <table role="table" class="watch-table sleep-days" aria-label="Sleep in each 24 hours">
          <TableHead heads={dayHeads} />
          <tbody role="rowgroup">
            {days.map((day) => (
              <tr key={day.key} role="row" class={day.standing}>
                <th scope="row" role="rowheader">
                  {day.span}
                </th>
                <td role="cell" data-head="Slept">
                  <b>{day.slept}</b>
                </td>
                <td role="cell" data-head="Wanted">
                  {day.wanted}
                </td>
                <td role="cell" data-head="Least">
                  {day.least}
                </td>
                <td role="cell" class="standing-words">
                  <span class="mark-shape" aria-hidden="true">
                    {marks[day.standing]}
                  </span>{' '}
                  {day.words}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {priorSleep.length > 0 && (
        <>
          <p>
            Prior sleep, for information: 5 h in 24, 12 h in 48, and not longer awake than slept in 48. It bars work
            aloft and overside only. Against it:
          </p>
          <ul class="prior-sleep">
            {priorSleep.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
