import type { JSX } from 'preact';
import type { RestRuleRow } from '../../server/presenters/watch-rest-rules.ts';
import { TableHead } from './table-head.tsx';

const heads = ['Rule', 'It asks', 'This plan', 'Which is'] as const;

/** Rest rules of merchant ships as yardsticks; what they are for, and COLREG Rule 5, stands before them. */
export function RestRulesPart(props: { rules: readonly RestRuleRow[]; notes: readonly string[] }): JSX.Element {
  return (
    <div class="watch-part rest-rules">
      <h2>Rest rules, for information</h2>
      <div class="rest-notes">
        {props.notes.map((note) => (
          <p key={note}>{note}</p>
        ))}
      </div>
      {props.rules.length > 0 && (
        <table role="table" class="watch-table rules" aria-label="Rest rules, for information">
          <TableHead heads={heads} />
          <tbody role="rowgroup">
            {props.rules.map((rule) => (
              <tr key={rule.ruleId} role="row" class={rule.standing}>
                <th scope="row" role="rowheader">
                  {rule.text}
                </th>
                <td role="cell" data-head="It asks">
                  {rule.asks}
                </td>
                <td role="cell" data-head="This plan">
                  {rule.has}
                </td>
                <td role="cell">{rule.words}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}
