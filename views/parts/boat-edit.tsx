import type { JSX } from 'preact';
import type { BoatPage, SpeedsPage, SpeedsPreview } from '../../server/presenters/boat-page.ts';
import { PassageLinks } from './passage-links.tsx';
import { ProblemList } from './problems.tsx';
import { TableHead } from './table-head.tsx';
import { VersionField } from './version-field.tsx';

/** The boat: her figures, her speed tables, how she can be handled. */
export function BoatMain({ page }: { page: BoatPage }): JSX.Element {
  return (
    <main id="passage" class="alone passage-edit">
      <p class="passage-name">{page.name}</p>
      <h1 class="what">Boat</h1>
      <dl class="facts">
        {page.figures.map(({ label, text, isDefault }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>
              {text}
              {isDefault && <Default />}
            </dd>
          </div>
        ))}
      </dl>
      <p class="edit-buttons">
        <a class="button" href="/passage/boat/figures">
          Change name and instrument height
        </a>
      </p>
      <h2 id="speeds">Speed tables</h2>
      <table role="table" class="edit-table of-speeds">
        <TableHead heads={['Under', 'Speeds']} />
        <tbody role="rowgroup">
          {page.tables.map(({ name, text, href, isEstimated }) => (
            <tr key={href} role="row">
              <th scope="row" role="rowheader">
                <a href={href}>{name}</a>
              </th>
              <td role="cell" data-head="Speeds">
                {text}
                {isEstimated && <Default />}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <h2 id="handlings">Handlings and their limits</h2>
      <p>Ideal up to the first figure, with caution up to the second, no-go above the third.</p>
      <table role="table" class="edit-table of-handlings">
        <TableHead heads={['Handling', 'True wind at 10 m', 'Sea']} />
        <tbody role="rowgroup">
          {page.handlings.map(({ name, href, wind, sea, isDefault }) => (
            <tr key={href} role="row">
              <th scope="row" role="rowheader">
                <a href={href}>{name}</a>
                {isDefault && <Default />}
              </th>
              <td role="cell" data-head="Wind">
                {wind}
              </td>
              <td role="cell" data-head="Sea">
                {sea}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="edit-buttons">
        <a class="button" href="/passage/boat/handlings/new">
          Add a handling of your own
        </a>
      </p>
      <PassageLinks />
    </main>
  );
}

const Default = (): JSX.Element => (
  <>
    {' '}
    <span class="default">default</span>
  </>
);

/** One speed table as a text, and what it would change. */
export function SpeedsMain({ page }: { page: SpeedsPage }): JSX.Element {
  const isWrong = page.problems.length > 0;
  return (
    <main id="passage" class="alone passage-edit">
      <p class="passage-name">{page.name}</p>
      <h1 class="what">{page.title}</h1>
      {!page.isThere && <p>There is none: speeds are estimated from the sail area.</p>}
      <form class="edit-text" method="post" action={page.action}>
        <VersionField version={page.version} />
        <label for="table-text">The whole table</label>
        <p class="subtitle" id="table-said">
          The header twa_deg,tws_kn,boat_speed_kn, then a line for each angle to the true wind and true wind speed, with
          decimal points; parted by commas, semicolons or tabs. Nothing is saved before you have seen what changes.
        </p>
        {isWrong && <ProblemList problems={page.problems} />}
        <textarea
          id="table-text"
          name="table"
          rows={14}
          spellcheck={false}
          aria-describedby="table-said"
          {...(isWrong ? { 'aria-invalid': 'true' as const } : {})}
        >
          {page.text}
        </textarea>
        <p class="edit-buttons">
          <button name="do" value="look">
            Show what changes
          </button>
          <a class="button" href="/passage/boat">
            Leave the table as it is
          </a>
          {page.isThere && (
            <button name="do" value="remove">
              Take it out
            </button>
          )}
        </p>
        {page.preview !== null && <Preview preview={page.preview} />}
      </form>
    </main>
  );
}

function Preview({ preview }: { preview: SpeedsPreview }): JSX.Element {
  const { changes, windHeads, rows } = preview;
  return (
    <div class="edit-preview">
      <div role="status">
        {changes.length === 0 ? (
          <p>The table changes nothing.</p>
        ) : (
          <p>
            <b>Nothing is saved yet.</b>
          </p>
        )}
        {changes.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {changes.length > 0 && (
        <p class="edit-buttons">
          <button class="main-button" name="do" value="save">
            Take this table over
          </button>
        </p>
      )}
      <div class="speeds-grid" tabIndex={0} role="region" aria-label="Boat speeds in knots">
        <table>
          <caption>Boat speed, kn: true wind across, angle to it down</caption>
          <thead>
            <tr>
              <th scope="col">Angle</th>
              {windHeads.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ head, speeds }) => (
              <tr key={head}>
                <th scope="row">{head}</th>
                {speeds.map((speed, index) => (
                  <td key={windHeads[index]}>{speed}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
