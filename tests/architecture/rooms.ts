/**
 * Who may import whom: the only list. Change it in the same commit as the import that needs it.
 *
 * Every lib room may import `everyone`; a room's own list comes on top. Rooms are entered through `index.ts` only.
 */
const everyone = ['units', 'result', 'sources', 'time', 'weather', 'shape', 'csv'] as const;

/** Rooms that everyone may import: their lists are complete as they stand. */
const ground: Readonly<Record<string, readonly string[]>> = {
  units: [],
  result: [],
  sources: [],
  time: ['units', 'result'],
  weather: ['units', 'sources'],
  shape: ['result'],
  csv: [],
};

const rooms: Readonly<Record<string, readonly string[]>> = {
  geo: [],
  sky: ['geo'],
  grib: [],
  forecast: ['geo', 'grib'],
  track: ['geo'],
  boat: [],
  sail: [],
  person: [],
  stock: [],
  jobs: ['stock', 'boat', 'sail'],
  passage: ['geo', 'track', 'boat', 'person', 'jobs', 'stock', 'sail', 'forecast'],
  voyage: ['geo', 'sky', 'forecast', 'track', 'boat'],
  windows: ['geo', 'sky', 'forecast', 'track', 'boat', 'jobs', 'stock', 'person', 'voyage'],
  schedule: [],
  rehearsal: ['jobs'],
  reasons: ['geo', 'sky', 'forecast', 'track', 'boat', 'jobs', 'stock', 'person', 'voyage', 'windows'],
  planner: [
    'geo',
    'sky',
    'forecast',
    'track',
    'boat',
    'jobs',
    'stock',
    'person',
    'passage',
    'voyage',
    'windows',
    'schedule',
    'rehearsal',
    'reasons',
  ],
  log: ['geo', 'forecast', 'track', 'boat', 'jobs', 'person', 'stock', 'passage', 'planner'],
  message: ['geo', 'grib', 'forecast', 'track', 'boat', 'person', 'jobs', 'passage', 'voyage', 'planner', 'log'],
  brief: [
    'geo',
    'sky',
    'grib',
    'forecast',
    'track',
    'boat',
    'person',
    'stock',
    'sail',
    'jobs',
    'passage',
    'voyage',
    'windows',
    'reasons',
    'planner',
    'log',
    'message',
  ],
};

/** Every lib room with the rooms it may import. */
export const allowedRooms: Readonly<Record<string, readonly string[]>> = {
  ...ground,
  ...Object.fromEntries(Object.entries(rooms).map(([room, own]) => [room, [...everyone, ...own]])),
};

/** Third-party packages and where each may be imported: a folder (ends in `/`) or a file. Tests may import anything. */
export const packageHomes: Readonly<Record<string, readonly string[]>> = {
  luxon: ['lib/time/'],
  suncalc: ['lib/sky/'],
  zod: [
    'lib/shape/',
    'lib/passage/',
    'lib/jobs/',
    'lib/boat/',
    'lib/track/',
    'lib/person/',
    'lib/stock/',
    'lib/sail/',
    'lib/log/',
    'lib/message/',
    'lib/brief/',
    'server/',
    'scripts/supply-chain/',
    'scripts/kill-store/',
  ],
  express: ['server/'],
  busboy: ['server/uploads/'],
  libsql: ['server/stores/'],
  preact: ['views/', 'server/presenters/'],
  'preact-render-to-string': ['views/', 'server/presenters/'],
  'd3-scale': ['views/'],
  'd3-shape': ['views/'],
  'd3-geo': ['server/presenters/'],
  'topojson-client': ['server/coastline.ts'],
  highs: ['scripts/compare-highs/'],
  'playwright-core': ['scripts/screenshots/', 'scripts/bench-pages/'],
  tsx: ['scripts/'],
};

/** Node modules that are functions of their arguments alone, and the folders of lib that may use them. */
export const pureNodeModules: Readonly<Record<string, readonly string[]>> = {
  'node:zlib': ['lib/grib/packing/png/'],
  'node:crypto': ['lib/message/'],
};

/** What `scripts` may import of the server: what a command needs to work on the store, and the server itself to start it. */
export const serverForScripts = [
  'server/access/',
  'server/stores/',
  'server/decoding/',
  'server/fetchers/',
  'server/config.ts',
  'server/main.ts',
  'server/program-print.ts',
  'server/program-version.ts',
] as const;

/** What `scripts` may import of the views: drawings that are printed as they are. */
export const viewsForScripts = ['views/render-sail.tsx'] as const;

/** Top-level folders in which TypeScript lives. */
export const codeFolders = ['server', 'views', 'lib', 'scripts', 'tests'] as const;
