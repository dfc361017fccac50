/** Requests that lie, always the same for a pool, a seed and an index. */
import { type Chance, chanceOf } from '../chance.ts';
import { encodedBody } from './encoded-body.ts';
import { framed, type Parts } from './framed.ts';
import { FIELD_NAMES, FIELD_TEXTS, GIANT_TEXTS, METHODS, PATHS, TYPES } from './hostile-texts.ts';
import type { SentRequest } from './sent-request.ts';
import { multipartBody } from './multipart-body.ts';
import type { Asked } from './pool.ts';

type Fields = (readonly [name: string, value: string])[];

/** Stands for the version of the passage at the time it is sent. */
const VERSION = 'version';
const FORM_TYPE = 'application/x-www-form-urlencoded';
const GIANT_ONE_IN = 400;

export interface RequestPool {
  readonly asked: readonly Asked[];
  /** `Host` of the server. */
  readonly host: string;
  /** What forms carry as their version now. */
  readonly version: string;
}

/** Ways to lie, the more often named the more often taken. */
const WAYS: readonly (readonly [
  name: string,
  weight: number,
  make: (pool: RequestPool, chance: Chance) => SentRequest,
])[] = [
  ['fields', 9, withFields],
  ['address', 4, withAddress],
  ['body', 4, withBody],
  ['type', 2, withType],
  ['encoding', 2, withEncoding],
  ['frame', 4, (pool, chance) => framed(partsOf(anyForm(pool, chance), pool, chance), chance)],
  ['method', 1, withMethod],
  ['upload', 3, withUpload],
  ['as it is', 3, asItIs],
];
const TICKETS = WAYS.flatMap(([name, weight, make]) => Array.from({ length: weight }, () => ({ name, make })));

export function requestOf(pool: RequestPool, at: { readonly seed: number; readonly index: number }): SentRequest {
  const chance = chanceOf(at);
  const { name, make } = chance.pick(TICKETS);
  const request = make(pool, chance);
  return { ...request, story: `${name}: ${request.story}` };
}

const anyForm = (pool: RequestPool, { pick, oneIn }: Chance): Asked =>
  pick(oneIn(5) ? pool.asked : pool.asked.filter(({ method }) => method === 'POST'));

const encodedFields = (fields: Fields): string =>
  fields.map(([name, value]) => `${encoded(name)}=${encoded(value)}`).join('&');

/** Lone surrogates too, as their three octets: no browser sends them, anybody else may. */
const encoded = (text: string): string =>
  Array.from(text, (character) =>
    /^[\uD800-\uDFFF]$/.test(character) ? '%ED%A0%80' : encodeURIComponent(character),
  ).join('');

const nowVersion = (fields: Asked['fields'], version: string): Fields =>
  fields.map(([name, value]) => [name, name === VERSION ? version : value]);

/** The request as a browser would send it, in parts. */
function partsOf(asked: Asked, pool: RequestPool, chance: Chance): Parts {
  const fields = nowVersion(asked.fields, pool.version);
  return partsWith(asked, fields, pool, chance);
}

function partsWith(asked: Asked, fields: Fields, { host }: RequestPool, chance: Chance): Parts {
  const story = `${asked.method} ${asked.path}`;
  if (asked.method === 'GET') {
    const query = fields.length === 0 ? '' : `?${encodedFields(fields)}`;
    return { story, method: 'GET', target: asked.path + query, headers: [['Host', host]], body: Buffer.alloc(0) };
  }
  const { type, body } =
    asked.kind === 'upload'
      ? multipartBody(fields, chance, false)
      : { type: FORM_TYPE, body: Buffer.from(encodedFields(fields)) };
  return {
    story,
    method: 'POST',
    target: asked.path,
    headers: [
      ['Host', host],
      ['Content-Type', type],
    ],
    body,
  };
}

/** Well framed, whatever it says. */
function sent({ story, method, target, headers, body }: Parts, isWhole = true): SentRequest {
  const length: Parts['headers'] =
    method === 'GET' && body.length === 0 ? [] : [['Content-Length', String(body.length)]];
  const lines = [...headers, ...length, ['Connection', 'close'] as const].map(
    ([name, value]) => `${name}: ${value}\r\n`,
  );
  const head = Buffer.from(`${method} ${target} HTTP/1.1\r\n${lines.join('')}\r\n`, 'latin1');
  return { octets: Buffer.concat([head, body]), story, isWhole };
}

function asItIs(pool: RequestPool, chance: Chance): SentRequest {
  const asked = chance.pick(pool.asked);
  // A new passage would take the place of the one all other forms are of.
  return sent(partsOf(asked.path === '/new' ? { ...asked, method: 'GET', fields: [] } : asked, pool, chance));
}

function withFields(pool: RequestPool, chance: Chance): SentRequest {
  const asked = anyForm(pool, chance);
  let fields = nowVersion(asked.fields, pool.version);
  for (let left = 1 + chance.below(3); left > 0; left--) fields = changedFields(fields, pool, chance);
  return sent(partsWith(asked, fields, pool, chance));
}

function changedFields(fields: Fields, pool: RequestPool, chance: Chance): Fields {
  const { below, pick, oneIn } = chance;
  const at = below(Math.max(1, fields.length));
  const [name = 'x', value = ''] = fields[at] ?? [];
  const text = oneIn(GIANT_ONE_IN) ? pick(GIANT_TEXTS)() : pick(FIELD_TEXTS);
  switch (below(9)) {
    case 0:
      return fields.toSpliced(at, 1);
    case 1:
      return [...fields, [name, text]];
    case 2:
      return fields.toSpliced(at, 1, [pick(FIELD_NAMES), value]);
    case 3:
      return [...fields, [`${name}[]`, text]];
    case 4:
      return fields.toSpliced(at, 1, [
        name,
        pick(
          pick(pool.asked)
            .fields.map(([, other]) => other)
            .concat(''),
        ),
      ]);
    case 5:
      return [...fields, ...(oneIn(20) ? Array.from({ length: 5200 }, (_, i): Fields[number] => [`f${i}`, '']) : [])];
    default:
      return fields.toSpliced(at, 1, [name, text]);
  }
}

function withAddress(pool: RequestPool, chance: Chance): SentRequest {
  const { pick, below, oneIn } = chance;
  const asked = pick(pool.asked);
  const parts = partsOf(asked, pool, chance);
  if (oneIn(2)) return sent({ ...parts, target: pick(PATHS), story: `${asked.method} ${asked.path} elsewhere` });
  const steps = asked.path.split('/');
  steps[below(steps.length)] = encoded(pick(FIELD_TEXTS)).slice(0, 6000);
  return sent({ ...parts, target: `/${steps.filter((step) => step !== '').join('/')}` });
}

function withBody(pool: RequestPool, chance: Chance): SentRequest {
  const { below, pick } = chance;
  const parts = partsOf(anyForm(pool, chance), pool, chance);
  const text = parts.body.toString('latin1');
  const at = below(text.length + 1);
  const body = pick([
    () => text.slice(0, at),
    () => `${text.slice(0, at)}%${text.slice(at)}`,
    () => `${text.slice(0, at)}%zz%u0041%00${text.slice(at)}`,
    () => `${text.slice(0, at)}\0\u00FF\u0080${text.slice(at)}`,
    () => text.replaceAll('=', ''),
    () => '&'.repeat(6000),
    () => `${text}&${'a[b]'.repeat(2000)}=1`,
    () => `${text}&${Array.from({ length: 5100 }, (_, i) => `f${i}=`).join('&')}`,
    () => JSON.stringify({ text }),
    () => (chance.oneIn(20) ? text.padEnd(300_000, 'x') : ''),
    () => text + text,
  ])();
  return sent({ ...parts, body: Buffer.from(body, 'latin1') });
}

const withoutType = (headers: Parts['headers']): Parts['headers'] =>
  headers.filter(([name]) => name !== 'Content-Type');

function withType(pool: RequestPool, chance: Chance): SentRequest {
  const parts = partsOf(anyForm(pool, chance), pool, chance);
  const type = chance.pick(TYPES);
  return sent({ ...parts, headers: [...withoutType(parts.headers), ['Content-Type', type]] });
}

function withEncoding(pool: RequestPool, chance: Chance): SentRequest {
  const parts = partsOf(anyForm(pool, chance), pool, chance);
  const { encoding, body } = encodedBody(parts.body, chance);
  return sent({ ...parts, headers: [...parts.headers, ['Content-Encoding', encoding]], body });
}

function withMethod(pool: RequestPool, chance: Chance): SentRequest {
  const method = chance.pick(METHODS);
  return sent({ ...partsOf(anyForm(pool, chance), pool, chance), method }, false);
}

function withUpload(pool: RequestPool, chance: Chance): SentRequest {
  const uploads = pool.asked.filter(({ kind }) => kind === 'upload');
  const asked = chance.pick(uploads.length === 0 ? pool.asked : uploads);
  const parts = partsOf(asked, pool, chance);
  const { type, body } = multipartBody(nowVersion(asked.fields, pool.version), chance, true);
  return sent({ ...parts, method: 'POST', headers: [...withoutType(parts.headers), ['Content-Type', type]], body });
}
