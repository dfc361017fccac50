import type { JSX } from 'preact';
import type { GpxView, TrackPage, WaypointRow } from '../../server/presenters/track-page.ts';
import { PassageLinks } from './passage-links.tsx';
import { ProblemList } from './problems.tsx';
import { TableHead } from './table-head.tsx';
import { VersionField } from './version-field.tsx';

const HEADS = ['Waypoint', 'Position', 'Leg that ends there', 'Order'];

/** The waypoints, and a GPX text to be read in their place. */
export function TrackMain({ page }: { page: TrackPage }): JSX.Element {
  return (
    <main id="passage" class="alone passage-edit">
      <p class="passage-name">{page.name}</p>
      <h1 class="what">Track</h1>
      <p>{page.summary}</p>
      {page.notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      <table role="table" class="edit-table of-track">
        <TableHead heads={HEADS} />
        <tbody role="rowgroup">
          {page.rows.map((row) => (
            <Row key={row.number} row={row} version={page.version} />
          ))}
        </tbody>
      </table>
      <p class="edit-buttons">
        <a class="button" href="/passage/track/new">
          Add a waypoint at the end
        </a>
        <a class="button" href="/passage/track/new?after=0">
          Add one before the first
        </a>
      </p>
      <Gpx gpx={page.gpx} version={page.version} />
      <PassageLinks />
    </main>
  );
}

function Row({ row, version }: { row: WaypointRow; version: string }): JSX.Element {
  const title = row.name === '' ? `${row.number}` : `${row.number}, ${row.name}`;
  return (
    <tr role="row" id={`waypoint-${row.number - 1}`}>
      <th scope="row" role="rowheader">
        <a href={row.href}>Waypoint {title}</a>
      </th>
      <td role="cell" data-head="At">
        {row.position}
      </td>
      <td role="cell" data-head="Leg" class={row.leg === '' ? 'empty' : undefined}>
        {row.leg}
      </td>
      <td role="cell" class="moves">
        <form method="post" action={row.moveHref}>
          <VersionField version={version} />
          {row.canGoUp && (
            <button name="do" value="up" aria-label={`Waypoint ${row.number} earlier`}>
              Earlier
            </button>
          )}
          {row.canGoDown && (
            <button name="do" value="down" aria-label={`Waypoint ${row.number} later`}>
              Later
            </button>
          )}
          <a class="button" href={row.addHref} aria-label={`Add behind waypoint ${row.number}`}>
            Add behind
          </a>
        </form>
      </td>
    </tr>
  );
}

function Gpx({ gpx, version }: { gpx: GpxView; version: string }): JSX.Element {
  const isWrong = gpx.problems.length > 0;
  return (
    <details class="edit-text" open={gpx.text !== '' || isWrong} id="gpx">
      <summary>Read a GPX text in the place of these waypoints</summary>
      <form method="post" action="/passage/track/gpx#gpx">
        <VersionField version={version} />
        <label for="gpx-text">All of a GPX 1.1 file</label>
        <p class="subtitle" id="gpx-said">
          Its one route, or its one track. Legs are rhumb lines. Nothing is saved before you have seen what it holds.
        </p>
        {isWrong && <ProblemList problems={gpx.problems} />}
        <textarea
          id="gpx-text"
          name="gpx"
          rows={8}
          spellcheck={false}
          aria-describedby="gpx-said"
          {...(isWrong ? { 'aria-invalid': 'true' as const } : {})}
        >
          {gpx.text}
        </textarea>
        <p class="edit-buttons">
          <button name="do" value="look">
            Show what it holds
          </button>
        </p>
        {gpx.found !== null && (
          <div class="edit-preview" role="status">
            <p>
              <b>Nothing is saved yet.</b>
            </p>
            {gpx.found.map((line) => (
              <p key={line}>{line}</p>
            ))}
            <p class="edit-buttons">
              <button class="main-button" name="do" value="save">
                Take this track over
              </button>
              <a class="button" href="/passage/track">
                Leave the track as it is
              </a>
            </p>
          </div>
        )}
      </form>
    </details>
  );
}
