import type { OwnFigure } from '../job-forms/index.ts';
import { plainFigure } from './job-figures.ts';
import { provenanceText } from './job-sources.ts';
import { limitsIn, sentenceIn } from './units/sentence.ts';
import type { ShownUnits } from './units/shown-units.ts';

/** A figure or text of the user's own beside the library's. */
export interface OwnRow {
  /** What the form of its button sends. */
  readonly place: string;
  readonly what: string;
  readonly own: string;
  readonly library: string;
}

/** Names that values are written with. */
export interface ValueNames {
  readonly handling: (id: string) => string;
  readonly sailState: (id: string) => string;
  readonly step: (id: string) => string;
}

export function ownRow({ place, stepId, keys, own, library }: OwnFigure, names: ValueNames, units: ShownUnits): OwnRow {
  const text = (value: unknown): string => inUnits(valueText(value, keys, names), keys, units);
  return { place, what: whatOf(keys, stepId, names), own: text(own), library: library.map(text).join(', or ') };
}

/** Limits and the air of a wait are of wind, sea and temperature; other figures are not. */
function inUnits(text: string, keys: readonly string[], units: ShownUnits): string {
  if (keys[0] === 'limits') return limitsIn(text, units);
  return keys[0] === 'waitAfter' ? sentenceIn(text.replaceAll('for each', 'for every'), units) : text;
}

function whatOf(keys: readonly string[], stepId: string | null, names: ValueNames): string {
  const label = labels[keys.join('.')] ?? labels[keys[0] ?? ''] ?? keys.join(', ');
  if (stepId !== null) return `${names.step(stepId)}: ${label.slice(0, 1).toLowerCase()}${label.slice(1)}`;
  return keys[0] === 'limits' || keys[0] === 'session' ? `${label}, every step` : label;
}

const labels: Readonly<Record<string, string>> = {
  name: 'Name',
  group: 'About',
  sailStates: 'Worked with',
  handlings: 'The boat meanwhile',
  lengthM: 'Length of the seam',
  rows: 'Rows of stitches',
  cloth: 'Cloth',
  seamStep: 'Step that sews the seam',
  cautions: 'Cautions',
  pointOfNoReturn: 'Point of no return',
  safePoints: 'Safe points',
  turnBack: 'To turn back',
  checksAfter: 'Checks afterwards',
  startEarly: 'To be started early',
  goesWith: 'Goes with',
  makes: 'Makes',
  needsTools: 'Tools',
  steps: 'Steps and their order',
  work: 'Minutes, least / likely / most',
  rate: 'Amount and rate',
  'rate.amount': 'Amount',
  waitAfter: 'Wait afterwards',
  place: 'Where',
  stop: 'Stopping',
  lookout: 'Look-out',
  effort: 'Effort',
  hands: 'Hands',
  darkFactorRatio: 'Longer in the dark, times',
  safePointAfter: 'Safe point afterwards',
  sailStateAfter: 'Sail set afterwards',
  clipTo: 'Tether clipped to',
  materials: 'Takes',
  instructions: 'Instructions',
  'limits.deckWindKn': 'Wind over the deck, ideal / caution / no-go',
  'limits.deckGustNoGoKn': 'Gust over the deck, no-go',
  'limits.seaHeightM': 'Sea height, ideal / caution / no-go',
  'limits.steepnessNoGoRatio': 'Steepness of the sea, no-go',
  'limits.daylight': 'Daylight',
  'limits.rain': 'Rain',
  'limits.airLeastC': 'Air, at least',
  'limits.seaWaterLeastC': 'Sea water, at least',
  'limits.visibilityLeastNm': 'Sight, at least',
  'limits.dryBeforeH': 'Dry before it begins',
  'limits.byEye': 'Judged by eye',
  'session.longestMin': 'Longest session',
  'session.restMin': 'Rest between sessions',
  'session.leastUsefulMin': 'Shortest session that is worth it',
  'session.resumeMin': 'To take the work up again',
  'session.makeSafeMin': 'To make it safe',
};

/** Units by the end of a key, longer ends first. */
const units: readonly (readonly [string, string])[] = [
  ['Min', 'min'],
  ['Kn', 'kn'],
  ['Nm', 'nm'],
  ['M', 'm'],
  ['H', 'h'],
  ['C', '°C'],
];

const unitOf = (key: string): string => units.find(([end]) => key.endsWith(end))?.[1] ?? '';

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A value of an entry or a job in words; what is not there is `none`. */
function valueText(value: unknown, keys: readonly string[], names: ValueNames): string {
  const key = keys.at(-1) ?? '';
  if (value === null || value === undefined) return 'none';
  if (Array.isArray(value))
    return value.length === 0 ? 'none' : value.map((one) => itemText(one, key, names)).join('; ');
  if (isObject(value)) return objectText(value, key);
  if (typeof value === 'number') return `${plainFigure(value)} ${unitOf(key)}`.trim();
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return itemText(value, key, names);
}

function itemText(value: unknown, key: string, names: ValueNames): string {
  if (isObject(value)) return objectText(value, key);
  const text = String(value);
  if (key === 'handlings') return names.handling(text);
  if (key === 'sailStates' || key === 'sailStateAfter') return names.sailState(text);
  return key === 'provenance' ? provenanceText(text) : text.replaceAll('-', KEEPS_HYPHEN.has(key) ? '-' : ' ');
}

/** Texts of people, in which a hyphen is meant. */
const KEEPS_HYPHEN: ReadonlySet<string> = new Set([
  'name',
  'cautions',
  'pointOfNoReturn',
  'safePoints',
  'turnBack',
  'needsTools',
  'steps',
  'instructions',
  'clipTo',
  'byEye',
]);

/** Figures of one thing behind one another, with their unit; words where it is made of words. */
function objectText(value: Readonly<Record<string, unknown>>, key: string): string {
  if ('item' in value) return `${figure(value['amount'])} ${String(value['unit'])} ${String(value['item'])}`;
  if ('look' in value) return `after ${figure(value['afterMin'])} min: ${String(value['look'])}`;
  const entries = Object.entries(value).filter(([, part]) => part !== null && typeof part !== 'object');
  const [first] = entries;
  if (first === undefined) return 'none';
  const isOfOneUnit = entries.every(([name, part]) => typeof part === 'number' && unitOf(name) === unitOf(first[0]));
  const unit = unitOf(first[0]) === '' ? unitOf(key) : unitOf(first[0]);
  if (isOfOneUnit) return `${entries.map(([, part]) => figure(part)).join(' / ')} ${unit}`.trim();
  return entries.map(([name, part]) => `${partNames[name] ?? name} ${figure(part)} ${unitOf(name)}`.trim()).join(', ');
}

const partNames: Readonly<Record<string, string>> = {
  kind: '',
  leastH: 'least',
  likelyH: 'likely',
  mostH: 'most',
  atC: 'at',
  halvesPerC: 'half for each',
  floorC: 'not below',
  keptAtC: 'kept at',
  amount: '',
  unit: '',
  slowestPerH: 'slowest an hour',
  likelyPerH: 'likely an hour',
  fastestPerH: 'fastest an hour',
  setUpMin: 'to begin',
};

const figure = (part: unknown): string => (typeof part === 'number' ? plainFigure(part) : String(part));
