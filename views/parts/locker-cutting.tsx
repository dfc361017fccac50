import type { JSX } from 'preact';
import type { Figure, PieceRow } from '../../server/presenters/locker-cutting.ts';
import type { KerfForm, LockerPage } from '../../server/presenters/locker-page.ts';
import { CutSheet, Default } from './locker-sheet.tsx';
import { TableHead } from './table-head.tsx';
import { VersionField } from './version-field.tsx';

/** What is wanted cut, with its forms, and the sheet to saw by. */
export function LockerCutting({ page }: { page: LockerPage }): JSX.Element {
  const { cutting, kerf, version, hasBars } = page;
  return (
    <section id="cutting" class="cutting" aria-labelledby="cutting-title">
      <h2 id="cutting-title">Cut from the bars</h2>
      {!hasBars && (
        <p>
          The locker has no bars. A bar is a line of the kind “bar”, with length and thickness: batten, tube or rod.
        </p>
      )}
      {cutting === null ? (
        <p>Nothing is wanted cut. Add the pieces you need, and the sheet says which bars to saw where.</p>
      ) : (
        <Pieces pieces={cutting.pieces} />
      )}
      <p class="locker-buttons">
        <a class="button" href="/locker/pieces/new">
          Add a piece
        </a>
      </p>
      {cutting !== null && (
        <>
          <Kerf kerf={kerf} figure={cutting.kerf} version={version} />
          <CutSheet cutting={cutting} headings="h3" />
          <p class="locker-buttons">
            <a class="button" href="/locker/cut">
              The sheet alone, to print
            </a>
            {cutting.canBeSawn && (
              <a class="button" href="/locker/sawn">
                It is sawn: take the left-overs in
              </a>
            )}
          </p>
        </>
      )}
    </section>
  );
}

const PIECE_HEADS = ['Piece', 'Made', 'Priority, the greater first', 'Joins'];

function Pieces({ pieces }: { pieces: readonly PieceRow[] }): JSX.Element {
  return (
    <table role="table" class="locker-table of-pieces">
      <TableHead heads={PIECE_HEADS} />
      <tbody role="rowgroup">
        {pieces.map((piece) => (
          <tr key={piece.href} role="row" class={piece.isAllMade ? undefined : 'is-short'}>
            <th scope="row" role="rowheader">
              <a href={piece.href}>{piece.name}</a>
              <small>{piece.size}</small>
            </th>
            <td role="cell" data-head="Made">
              {piece.isAllMade ? piece.made : <b class="short">{piece.made}</b>}
            </td>
            <td role="cell" data-head="Priority">
              {piece.priority.text}
              <Default figure={piece.priority} />
            </td>
            <td role="cell" data-head="Joins">
              {piece.joins.map((join, index) => (
                <span key={join.text}>
                  {index > 0 && ', '}
                  {join.text}
                  <Default figure={join} />
                </span>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Kerf({ kerf, figure, version }: { kerf: KerfForm; figure: Figure; version: string }): JSX.Element {
  const isWrong = kerf.problems.length > 0;
  return (
    <form method="post" action="/locker/kerf#kerf-form" class="kerf" id="kerf-form">
      <VersionField version={version} />
      <label for="kerf">Width of the saw cut</label>
      <span class="with-unit">
        <input
          id="kerf"
          name="kerf"
          type="text"
          inputMode="decimal"
          autocomplete="off"
          value={kerf.text}
          aria-describedby="kerf-said"
          {...(isWrong ? { 'aria-invalid': 'true' as const } : {})}
        />
        <span class="unit">mm</span>
        <button>Save the saw cut</button>
      </span>
      <div id="kerf-said" class="said-of-field">
        {kerf.problems.map(({ code, what, expected, remedy }) => (
          <p key={code} class="field-problem">
            <b>{what}</b> Expected: {expected}. {remedy}
          </p>
        ))}
        <p>
          Counted with {figure.text}
          <Default figure={figure} />. Try yours on scrap; empty: the default.
        </p>
      </div>
    </form>
  );
}
