import type { JSX } from 'preact';
import type { StripTable } from '../../server/presenters/strip-model.ts';

/** A drawing in figures, folded. */
export function FiguresTable(props: { table: StripTable; summary: string; label: string }): JSX.Element {
  const { table } = props;
  return (
    <details class="figures">
      <summary>{props.summary}</summary>
      <div class="scroll" tabIndex={0} role="region" aria-label={props.label}>
        <table>
          <thead>
            <tr>
              {table.head.map((cell) => (
                <th key={cell} scope="col">
                  {cell}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row) => (
              <tr key={row[0]}>
                {row.map((cell, i) =>
                  i === 0 ? (
                    <th key={i} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={i}>{cell}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
