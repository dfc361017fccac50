import type { JSX } from 'preact';
import type { MapRow, SeaMap } from '../../server/presenters/map/map-model.ts';
import { SeaMapDrawing } from '../charts/sea-map-drawing.tsx';

/** The map, its key, and the same in a table. */
export function SeaMapPart({ map }: { map: SeaMap }): JSX.Element {
  const drawn = {
    title: map.title,
    description: `${map.sentence} Work and sleep stand with their times and positions in the table below the map.`,
  };
  return (
    <section class="map" aria-labelledby="map-title">
      <h2 id="map-title">{map.title}</h2>
      <p class="subtitle">{map.sentence}</p>
      <div class="map-parts">
        <div>
          <SeaMapDrawing drawing={map.desk} where="desk" {...drawn} />
          <SeaMapDrawing drawing={map.phone} where="phone" {...drawn} />
          <Key hasTrack={map.desk.track !== ''} hasRuns={map.desk.runs.length > 0} />
          <p class="map-note">{map.note}</p>
        </div>
        <ol class="map-jobs">
          {firstOfEach(map.rows).map((row) => (
            <li key={row.key} value={Number(row.number)} class={row.isChosen ? 'chosen' : undefined}>
              {row.name} <small>{row.time}</small>
            </li>
          ))}
        </ol>
      </div>
      <details>
        <summary>All work and sleep with times and positions, and where she runs</summary>
        <PlaceTable rows={map.rows} />
      </details>
    </section>
  );
}

/** Each job once, where it is begun. */
const firstOfEach = (rows: readonly MapRow[]): MapRow[] =>
  rows.filter(({ number }, i) => number !== '' && rows.findIndex((other) => other.number === number) === i);

const PlaceTable = ({ rows }: { rows: readonly MapRow[] }): JSX.Element => (
  <table>
    <thead>
      <tr>
        <th scope="col">No.</th>
        <th scope="col">Work and sleep</th>
        <th scope="col">Ship’s time</th>
        <th scope="col">Position</th>
      </tr>
    </thead>
    <tbody>
      {rows.map((row) => (
        <Row key={row.key} row={row} />
      ))}
    </tbody>
  </table>
);

function Row({ row }: { row: MapRow }): JSX.Element {
  const kind = row.number === '' ? 'sleep' : row.isChosen ? 'chosen' : '';
  return (
    <tr class={kind}>
      <td class="number">{row.number}</td>
      <th scope="row">
        {row.name}
        {row.runsOff !== '' && <span class="runs-off">Runs {row.runsOff}</span>}
      </th>
      <td class="time">{row.time}</td>
      <td class="position">{row.position}</td>
    </tr>
  );
}

function Key({ hasTrack, hasRuns }: { hasTrack: boolean; hasRuns: boolean }): JSX.Element {
  return (
    <ul class="key" aria-label="Key to the map">
      <Entry text="work, by its number">
        <circle class="map-job" cx="11" cy="6" r="5" />
      </Entry>
      <Entry text="way of the plan">
        <path class="map-way" d="M0 6H22" />
      </Entry>
      <Entry text="asleep">
        <path class="map-sleep" d="M0 6H22" />
      </Entry>
      {hasTrack && (
        <Entry text="track">
          <path class="map-track" d="M0 6H22" />
        </Entry>
      )}
      {hasRuns && (
        <Entry text="runs off this way">
          <path class="map-run" d="M0 6H20M14 2L20 6L14 10" />
        </Entry>
      )}
    </ul>
  );
}

const Entry = ({ text, children }: { text: string; children: JSX.Element }): JSX.Element => (
  <li>
    <svg class="key-mark" viewBox="0 0 22 12" width="22" height="12" aria-hidden="true">
      {children}
    </svg>
    {text}
  </li>
);
