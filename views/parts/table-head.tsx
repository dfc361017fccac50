import type { JSX } from 'preact';

/** Names of the columns; the roles keep a table that is drawn as cards a table for those who hear it. */
export const TableHead = ({ heads }: { heads: readonly string[] }): JSX.Element => (
  <thead role="rowgroup">
    <tr role="row">
      {heads.map((head) => (
        <th key={head} scope="col" role="columnheader">
          {head}
        </th>
      ))}
    </tr>
  </thead>
);
