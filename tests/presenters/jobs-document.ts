import { parsePassage, readPassageFile } from '../../lib/passage/index.ts';
import type { JobFile } from '../../lib/jobs/index.ts';
import { editedJob, type EditedJob, findJob, readJobForm, type SentForm } from '../../server/job-forms/index.ts';
import type { JobDocument } from '../../server/presenters/job-document.ts';

/** An invented passage with these jobs, on a clock that stands still. */
export function documentWith(jobs: readonly unknown[], more: Readonly<Record<string, unknown>> = {}): JobDocument {
  const text = JSON.stringify({
    slatch: 1,
    name: 'Somewhere (invented)',
    clock: { fixedUtc: '2026-05-27T18:00Z' },
    start: { timeUtc: '2026-05-27T18:00Z', lat: -36.3, lon: 178.1 },
    track: [
      { lat: -36.3, lon: 178.1 },
      { lat: -36.7, lon: -178.5 },
    ],
    boat: { speedTables: { 'full-main': [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 6 }] } },
    settings: { shipTimeOffsetMin: 720 },
    jobs,
    ...more,
  });
  const passage = parsePassage(text, 'passage 1');
  const file = readPassageFile(text, 'passage 1');
  if (!passage.ok || !file.ok) throw new Error(JSON.stringify([passage, file]));
  return { number: 1, version: 1, passage: passage.value, file: file.value };
}

/** A job of it, ready to be edited. */
export function editedIn(document: JobDocument, jobId: string): EditedJob {
  const found = findJob(document.file, document.passage, jobId);
  if (found === null) throw new Error(`no job ${jobId}`);
  return editedJob(document, found);
}

/** The form as a browser sends it with some texts changed; what is not named is sent as it was shown. */
export function sentWith(edited: EditedJob, changed: Readonly<Record<string, string | readonly string[]>>): SentForm {
  const fields = new Map(Object.entries(changed).map(([name, value]) => [name, [value].flat()]));
  const all = (name: string): readonly string[] => fields.get(name) ?? [];
  return readJobForm(
    { all, text: (name) => all(name)[0] ?? '', has: (name) => fields.has(name) },
    edited.entry,
    edited.around,
  );
}

/** The entry of a job in a file. */
export const entryIn = (jobs: readonly JobFile[] | undefined, id: string): JobFile | undefined =>
  jobs?.find((entry) => entry.id === id);
