import type { JSX } from 'preact';
import type { JobPage } from '../../server/presenters/job-page.ts';
import { TableHead } from './table-head.tsx';
import { VersionField } from './version-field.tsx';

/** What is not as in the library, beside what the library says, each with a button that gives it back. */
export function JobOwn({ page }: { page: JobPage }): JSX.Element | null {
  if (!page.isFromLibrary) return null;
  if (page.own.length === 0) return <p class="as-library">All figures are as in the library.</p>;
  const action = `/jobs/${page.jobId}/library`;
  return (
    <section class="job-own" aria-labelledby="own-title">
      <h2 id="own-title">Not as in the library</h2>
      <table role="table">
        <TableHead heads={['What', 'Yours', 'The library’s', 'Back']} />
        <tbody role="rowgroup">
          {page.own.map(({ place, what, own, library }) => (
            <tr key={place} role="row">
              <th scope="row" role="rowheader">
                {what}
              </th>
              <td role="cell" data-head="Yours">
                {own}
              </td>
              <td role="cell" data-head="Library">
                {library}
              </td>
              <td role="cell" data-head="">
                <form method="post" action={action}>
                  <VersionField version={page.version} />
                  <button name="place" value={place} aria-label={`Back to the library’s: ${what}`}>
                    Back to the library’s
                  </button>
                </form>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {page.own.length > 1 && (
        <form method="post" action={action}>
          <VersionField version={page.version} />
          <button name="place" value="*">
            All back to the library’s
          </button>
        </form>
      )}
    </section>
  );
}
