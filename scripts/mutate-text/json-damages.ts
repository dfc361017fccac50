/** JSON that lies: values in the place of others, keys that should not be, depth and length out of all measure. */
import { type Damaging, ofText, type WeighedDamage } from './mutant.ts';

type Path = readonly (string | number)[];

/** Raw JSON text, of every kind. */
const VALUES: readonly string[] = [
  'null',
  'true',
  'false',
  '[]',
  '{}',
  '""',
  '" "',
  '"text"',
  '[[]]',
  '[null]',
  '{"a":1}',
  '[{}]',
  '0',
  '-0',
  '1',
  '-1',
  '0.5',
  '-0.0000001',
  '1e308',
  '-1e308',
  '1e999',
  '5e-324',
  '1e21',
  '9007199254740993',
  '1000000000',
  '180',
  '180.0000001',
  '-180',
  '360',
  '90',
  '90.0001',
  '-90.0001',
  '2147483648',
  '1.5',
  '61',
  '"NaN"',
  '"Infinity"',
  '"0x10"',
  '"1"',
  '"12.5"',
  '"1,5"',
  '"1e3"',
  '"-"',
  '"true"',
  '"null"',
  '"[]"',
  'NaN',
  'Infinity',
  '-Infinity',
  'undefined',
  '01',
  '+1',
  '.5',
  '1.',
  '0x10',
  "'a'",
  '1e',
  '--1',
  '"\\u0000"',
  '"\\ud800"',
  '"\\udc00\\ud800"',
  '"a\\u202ebc"',
  '"\\u001b[31mred"',
  '"\\u2028"',
  '"a\\nb"',
  '"\\u200b"',
  '"__proto__"',
  '"constructor"',
  '"toString"',
  '"hasOwnProperty"',
  '{"__proto__":{"x":1}}',
  '{"toString":1}',
  '{"constructor":{"prototype":{"x":1}}}',
  '{"length":-1}',
  '{"then":1}',
  '"=1+1"',
  '"@SUM(A1)"',
  '"<script>"',
  '"../../etc/passwd"',
  '"..\\\\..\\\\x"',
  '"/dev/zero"',
  '"a\\u0000.gpx"',
  '"https://example.org/x"',
  '"CON"',
  '"+275760-09-13T00:00Z"',
  '"-000001-01-01T00:00Z"',
  '"0000-01-01T00:00Z"',
  '"9999-12-31T23:59Z"',
  '"2026-02-30T00:00Z"',
  '"2026-05-27T24:00Z"',
  '"2026-05-27T23:59:60Z"',
  '"2026-05-27T20:12+99:99"',
  '"2026-05-27T20:12"',
  '"2026-05-27"',
  '"1970-01-01T00:00Z"',
  '"2026-05-27T20:12-14:00"',
  '"20:61"',
  '"24:00"',
];

/** Texts too long for anything, and structures too deep or too wide. Made when asked for: some are megabytes. */
const GIANTS: readonly (() => string)[] = [
  () => `"${'a'.repeat(1_000_000)}"`,
  () => `"${'\\u202e'.repeat(100_000)}"`,
  () => '['.repeat(100_000) + ']'.repeat(100_000),
  () => `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`,
  () => '['.repeat(1_000_000),
  () => `[${'0,'.repeat(999_999)}0]`,
  () => `[${'{},'.repeat(299_999)}{}]`,
  () => `{${Array.from({ length: 100_000 }, (_, i) => `"k${i}":0`).join(',')}}`,
  () => '9'.repeat(100_000),
  () => `0.${'1'.repeat(100_000)}`,
  () => `"${'\\\\'.repeat(400_000)}"`,
];

const HOSTILE_KEYS = [
  '__proto__',
  'constructor',
  'toString',
  '',
  ' ',
  'a.b',
  'a[0]',
  '\u202Ename',
  'x'.repeat(3000),
  'Name',
];
const MARK = '\u0001mark\u0001';
const MARK_TEXT = JSON.stringify(MARK);

function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inner = Object.entries(value).flatMap(([key, one]) =>
    pathsOf(one, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return [path, ...inner];
}

type Holder = Record<string | number, unknown>;
const isHolder = (value: unknown): value is Holder => typeof value === 'object' && value !== null;

/** The object or list that holds the end of a path, and its key there; null: the path is that of the whole. */
function holderAt(value: unknown, path: Path): { readonly holder: Holder; readonly key: string | number } | null {
  let holder = value;
  for (const key of path.slice(0, -1)) holder = isHolder(holder) ? holder[key] : undefined;
  const key = path.at(-1);
  return key === undefined || !isHolder(holder) ? null : { holder, key };
}

interface Place {
  readonly whole: unknown;
  readonly holder: Holder;
  readonly key: string | number;
  readonly chance: Damaging;
}

/** Damage at any place of the value; what is no JSON any more is left as it is. */
const atPlace = (name: string, weight: number, change: (place: Place) => string): WeighedDamage => ({
  name,
  weight,
  damage: ofText((text, chance) => {
    const whole = parsedOrNull(text);
    const found = isHolder(whole) ? holderAt(whole, chance.pick(pathsOf(whole))) : null;
    return found === null ? text : change({ whole, ...found, chance });
  }),
});

/** What a giant made of it is left alone. */
const MOST_CHARACTERS = 100_000;

function parsedOrNull(text: string): unknown {
  if (text.length > MOST_CHARACTERS) return null;
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** The text with raw JSON where the mark stands. */
const written = (whole: unknown, raw: string): string => JSON.stringify(whole).replace(MARK_TEXT, () => raw);

const setRaw = ({ whole, holder, key }: Place, raw: string): string => {
  holder[key] = MARK;
  return written(whole, raw);
};

/** A key more, with a raw value, where the holder is an object. */
function addKey({ whole, holder, key, chance }: Place, name: string): string {
  const target = isHolder(holder[key]) && !Array.isArray(holder[key]) ? holder[key] : holder;
  if (Array.isArray(target)) return JSON.stringify(whole);
  target[MARK] = 0;
  return written(whole, JSON.stringify(name)).replace(':0', () => `:${chance.pick(VALUES)}`);
}

/** Damages of JSON values. `giantOneIn`: how seldom the largest ones come. */
export const jsonDamages = (giantOneIn: number): readonly WeighedDamage[] => [
  atPlace('another value', 12, (place) => setRaw(place, place.chance.pick(VALUES))),
  atPlace('a giant value', 1, (place) =>
    setRaw(place, place.chance.oneIn(giantOneIn) ? place.chance.pick(GIANTS)() : place.chance.pick(VALUES)),
  ),
  atPlace('a number as text, or a text as number', 3, (place) => {
    const value = place.holder[place.key];
    return setRaw(place, typeof value === 'number' ? `"${value}"` : String(Number(value) || 7));
  }),
  atPlace('a number near it', 5, (place) => {
    const value = place.holder[place.key];
    const factor = place.chance.pick([-1, 0.5, 2, 10, 1000, 1.0001, 1e-9, 1e9]);
    return setRaw(place, typeof value === 'number' ? String(value * factor) : place.chance.pick(VALUES));
  }),
  atPlace('taken out', 3, ({ whole, holder, key }) => {
    if (Array.isArray(holder)) holder.splice(Number(key), 1);
    else Reflect.deleteProperty(holder, key);
    return JSON.stringify(whole);
  }),
  atPlace('a key twice', 2, (place) => {
    if (Array.isArray(place.holder)) return JSON.stringify(place.whole);
    const name = JSON.stringify(String(place.key));
    return setRaw(place, `${place.chance.pick(VALUES)},${name}:${JSON.stringify(place.holder[place.key]) ?? '0'}`);
  }),
  atPlace('a key nobody knows', 3, (place) => addKey(place, place.chance.pick(HOSTILE_KEYS))),
  atPlace('a key misspelt', 2, ({ whole, holder, key, chance }) => {
    if (Array.isArray(holder)) return JSON.stringify(whole);
    const name = String(key);
    const at = chance.below(name.length);
    holder[name.slice(0, at) + name.slice(at + 1)] = holder[key];
    Reflect.deleteProperty(holder, key);
    return JSON.stringify(whole);
  }),
  atPlace('an entry many times', 2, ({ whole, holder, key, chance }) => {
    if (!Array.isArray(holder)) return JSON.stringify(whole);
    const entry: unknown = holder[Number(key)];
    const copies = Array.from({ length: chance.pick([1, 2, 60, 201, 2001]) }, () => entry);
    holder.push(...copies);
    return JSON.stringify(whole);
  }),
  atPlace('a part of another place', 3, ({ whole, holder, key, chance }) => {
    const source = holderAt(whole, chance.pick(pathsOf(whole)));
    holder[key] = source === null ? [] : structuredClone(source.holder[source.key]);
    return JSON.stringify(whole);
  }),
  atPlace('put into a list or an object', 2, (place) => {
    const raw = JSON.stringify(place.holder[place.key]) ?? 'null';
    return setRaw(place, place.chance.oneIn(2) ? `[${raw}]` : `{"value":${raw}}`);
  }),
];
