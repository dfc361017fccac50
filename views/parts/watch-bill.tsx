import type { JSX } from 'preact';
import type { WatchBill, WatchDay, WatchRow } from '../../server/presenters/watch-bill.ts';
import { TableHead } from './table-head.tsx';

const heads = ['Ship', 'UTC', 'What', 'Handling and sail', 'Deck wind', 'Light', 'Sleepiness, 1 to 9'] as const;

/** Who does what when, day by day; the rule on look-out stands above the sleep. */
export function WatchBillPart({ bill }: { bill: WatchBill }): JSX.Element {
  return (
    <section class="bill" aria-labelledby="bill-title">
      <h2 id="bill-title">Watch bill</h2>
      {bill.lookout !== null && <p class="lookout-rule">{bill.lookout}</p>}
      {bill.days.length === 0 ? (
        <p>Nothing is planned.</p>
      ) : (
        <table role="table">
          <colgroup>
            {['ship', 'utc', 'what', 'how', 'wind', 'light', 'sleepy'].map((id) => (
              <col key={id} class={id} />
            ))}
          </colgroup>
          <TableHead heads={heads} />
          {bill.days.map((day) => (
            <Day key={day.day} day={day} />
          ))}
        </table>
      )}
    </section>
  );
}

function Day({ day }: { day: WatchDay }): JSX.Element {
  return (
    <tbody role="rowgroup">
      <tr role="row" class="day-row">
        <th scope="rowgroup" role="rowheader" colSpan={heads.length}>
          {day.day}
        </th>
      </tr>
      {day.rows.map((row) => (
        <Row key={row.key} row={row} />
      ))}
    </tbody>
  );
}

function Row({ row }: { row: WatchRow }): JSX.Element {
  const how = [row.handling, row.sail, row.place].filter((text) => text !== '').join(', ');
  return (
    <tr role="row" class={row.kind}>
      <td role="cell" class="ship">
        {row.ship} <small>{row.lasts}</small>
      </td>
      <td role="cell" class="utc">
        {row.utc}
      </td>
      <th scope="row" role="rowheader">
        {row.href === null ? row.what : <a href={row.href}>{row.what}</a>}
        {row.kind === 'conditional' && <small class="note">conditional</small>}
        {row.rest !== '' && <small class="rest">{row.rest}</small>}
      </th>
      <Cell head="">{how}</Cell>
      <Cell head="Deck wind">{row.deckWind}</Cell>
      <Cell head="">{row.light}</Cell>
      <Cell head="Sleepiness">{row.sleepiness}</Cell>
    </tr>
  );
}

const Cell = ({ head, children }: { head: string; children: string }): JSX.Element => (
  <td role="cell" data-head={head} class={children === '' ? 'empty' : undefined}>
    {children}
  </td>
);
