/** Every page of the program, as a browser asks for it: photographed by the script, and looked at one by one in the tests. */

export interface ShownPage {
  /** The route as the server has it; an error page: null. */
  readonly route: string | null;
  readonly path: string;
  /** Status of its answer, 200 unless said. */
  readonly status?: number;
}

const page = (path: string, route = path): ShownPage => ({ route, path });

/** Pages of the demo's passage. Its log has to hold an entry, its plans two, its messages one: see `demoFilled`. */
export const PAGES: readonly ShownPage[] = [
  page('/'),
  page('/?job=hoist', '/'),
  page('/windows?job=drop', '/windows'),
  page('/windows?job=stitch&start=2026-05-28T10:30Z', '/windows'),
  page('/plan'),
  page('/plan/order'),
  page('/plan/watchkeeper'),
  page('/trial'),
  page('/plans?from=1&to=2', '/plans'),
  page('/jobs'),
  page('/new-job'),
  page('/jobs/stitch', '/jobs/:id'),
  page('/jobs/stitch/edit', '/jobs/:id/edit'),
  page('/jobs/oil/hours', '/jobs/:id/hours'),
  page('/jobs/drop/sheet', '/jobs/:id/sheet'),
  page('/damage'),
  page('/damage/0', '/damage/:sail'),
  page('/damage/0/tears/0', '/damage/:sail/tears/:tear'),
  page('/locker'),
  page('/locker/cut'),
  page('/locker/sawn'),
  page('/locker/items/0', '/locker/items/:index'),
  page('/locker/pieces/0', '/locker/pieces/:index'),
  page('/forecast'),
  page('/log'),
  page('/log/new/observation', '/log/new/:kind'),
  page('/log/new/job', '/log/new/:kind'),
  page('/log/new/job?job=stitch', '/log/new/:kind'),
  page('/log/1', '/log/:number'),
  page('/messages'),
  page('/messages/key'),
  page('/messages/1', '/messages/:number'),
  page('/document'),
  page('/new'),
  page('/display'),
  page('/key'),
  page('/passage/start'),
  page('/passage/track'),
  page('/passage/track/1', '/passage/track/:index'),
  page('/passage/boat'),
  page('/passage/boat/figures'),
  page('/passage/boat/speeds/full-main', '/passage/boat/speeds/:state'),
  page('/passage/boat/handlings/heave-to', '/passage/boat/handlings/:id'),
  page('/passage/watchkeeper'),
  page('/passage/settings'),
];

/** What is answered where something is not there. */
export const ERROR_PAGES: readonly ShownPage[] = [
  { route: null, path: '/nothing-here', status: 404 },
  { route: null, path: '/jobs/no-such-job', status: 404 },
  { route: null, path: '/plans?from=98&to=99', status: 404 },
  { route: null, path: '/jobs/%E0%A4%A', status: 400 },
];

/** Routes that answer with a file or with a part of a page. */
export const FILES_AND_PARTS: readonly string[] = [
  '/plan.ics',
  '/plan.gpx',
  '/plan.csv',
  '/plan.txt',
  '/plans/:file',
  '/plan/making',
  '/jobs/:id/sheet.txt',
  '/locker.csv',
  '/forecast/fetch',
  '/log.jsonl',
  '/log.csv',
  '/document/passage.json',
  '/document/passage.tar',
];

/** A name for a picture of a page: letters, figures and hyphens. */
export const pictureName = ({ path }: ShownPage): string =>
  path
    .replaceAll(/[^A-Za-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
    .toLowerCase() || 'passage';
