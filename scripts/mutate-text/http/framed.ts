/** Requests whose frame lies: lengths, chunks, heads, lines, several in one (RFC 9112). */
import type { Chance } from '../chance.ts';
import type { SentRequest } from './sent-request.ts';

export interface Parts {
  readonly story: string;
  readonly method: string;
  readonly target: string;
  readonly headers: readonly (readonly [name: string, value: string])[];
  readonly body: Buffer;
}

type Frame = (parts: Parts, body: string, chance: Chance) => string;

const headed = ({ headers }: Parts, ...more: readonly string[]): string =>
  [...headers.map(([name, value]) => `${name}: ${value}`), 'Connection: close', ...more]
    .map((line) => `${line}\r\n`)
    .join('');
const lined = (parts: Parts, ...more: readonly string[]): string =>
  `${parts.method} ${parts.target} HTTP/1.1\r\n${headed(parts, ...more)}\r\n`;
const chunk = (text: string): string => `${Buffer.byteLength(text, 'latin1').toString(16)}\r\n${text}\r\n`;

/** By name; what each sends is cut, contradictory, or of another version of HTTP. */
const FRAMES: Readonly<Record<string, Frame>> = {
  'a length too short': (parts, body) => lined(parts, `Content-Length: ${Math.floor(body.length / 2)}`) + body,
  'a length too long': (parts, body) => lined(parts, `Content-Length: ${body.length + 50}`) + body,
  'a length that is none': (parts, body, { pick }) =>
    lined(parts, `Content-Length: ${pick(['-1', 'NaN', '1e3', '0x10', '', '+5', '99999999999999999999', '1 1'])}`) +
    body,
  'two lengths': (parts, body) => lined(parts, `Content-Length: ${body.length}`, 'Content-Length: 1') + body,
  'no length': (parts, body) => lined(parts) + body,
  'length and chunks': (parts, body) =>
    `${lined(parts, `Content-Length: ${body.length}`, 'Transfer-Encoding: chunked')}${chunk(body)}0\r\n\r\n`,
  chunks: (parts, body, { below }) => {
    const at = below(body.length + 1);
    const pieces = [body.slice(0, at), body.slice(at)].filter((piece) => piece !== '').map(chunk);
    return `${lined(parts, 'Transfer-Encoding: chunked')}${pieces.join('')}0\r\n\r\n`;
  },
  'chunks without an end': (parts, body) => lined(parts, 'Transfer-Encoding: chunked') + chunk(body),
  'chunks of a false size': (parts, body, { pick }) =>
    `${lined(parts, 'Transfer-Encoding: chunked')}${pick(['FFFFFFFFFFFFFFFF', '-1', 'zz', '1', '', '7fffffff', '0x5'])}\r\n${body}\r\n0\r\n\r\n`,
  'chunks with extensions': (parts, body, { pick }) =>
    `${lined(parts, 'Transfer-Encoding: chunked')}1;${pick(['x=y', 'x'.repeat(20_000), 'a="\u0001"'])}\r\n${body.charAt(0) || 'x'}\r\n0\r\nTrailer: x\r\n\r\n`,
  'another transfer': (parts, body, { pick }) =>
    `${lined(parts, `Transfer-Encoding: ${pick(['gzip, chunked', 'chunked, identity', 'x', 'Chunked', ' chunked', 'chunked\u000B'])}`)}${chunk(body)}0\r\n\r\n`,
  'a flood of heads': (parts, body, { pick }) =>
    lined(
      parts,
      `Content-Length: ${body.length}`,
      ...Array.from({ length: pick([50, 1500, 3000]) }, (_, i) => `X-${i}: 1`),
    ) + body,
  'a giant head': (parts, body, { pick }) => lined(parts, `X: ${'x'.repeat(pick([8000, 20_000, 200_000]))}`) + body,
  'strange heads': (parts, body, { pick }) =>
    lined(
      parts,
      `Content-Length: ${body.length}`,
      pick([
        'X : 1',
        ': 1',
        'X\u0001: 1',
        'X: a\0b',
        ' folded',
        'X: \u00FF\u0080',
        'Cookie: slatch_units=;;=;%',
        'Cookie: =;__proto__=1',
      ]),
      pick([
        'Expect: 100-continue',
        'Expect: x',
        'Upgrade: websocket',
        'Upgrade: h2c',
        'Range: bytes=0-,1-',
        'If-None-Match: *',
      ]),
      pick([
        'HX-Request-Type: partial',
        'HX-Request: true',
        'Accept: x',
        'Referer: http://[',
        'Referer: //',
        'Accept-Encoding: gzip;q=x',
      ]),
    ) + body,
  'from elsewhere': (parts, body, { pick }) =>
    lined(
      parts,
      `Content-Length: ${body.length}`,
      pick(['Origin: null', 'Origin: http://example.org', 'Sec-Fetch-Site: cross-site', 'Origin: %']),
    ) + body,
  'another host': (parts, body, { pick }) =>
    lined(
      {
        ...parts,
        headers: [
          ...parts.headers.filter(([name]) => name !== 'Host'),
          ['Host', pick(['', 'example.org', '127.0.0.1', '[', 'a b', 'localhost:1'])],
        ],
      },
      `Content-Length: ${body.length}`,
    ) + body,
  'two hosts': (parts, body) => lined(parts, 'Host: example.org', `Content-Length: ${body.length}`) + body,
  'another version': (parts, body, { pick }) =>
    `${parts.method} ${parts.target} ${pick(['HTTP/1.0', 'HTTP/0.9', 'HTTP/2.0', 'HTTP/9', 'http/1.1', 'X', ''])}\r\n${headed(parts, `Content-Length: ${body.length}`)}\r\n${body}`,
  'bare line feeds': (parts, body) => lined(parts, `Content-Length: ${body.length}`).replaceAll('\r\n', '\n') + body,
  'the preface of HTTP/2': () => 'PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n',
  'an address in full': (parts, body, { pick }) =>
    lined(
      { ...parts, target: pick(['http://example.org/', 'http://127.0.0.1/', '*', 'x', 'file:///etc/passwd', '?', '']) },
      `Content-Length: ${body.length}`,
    ) + body,
  'cut off': (parts, body, { below }) => {
    const whole = lined(parts, `Content-Length: ${body.length}`) + body;
    return whole.slice(0, below(whole.length));
  },
  'many in one': (parts, body, { pick }) => {
    const one = lined(parts, `Content-Length: ${body.length}`).replace('Connection: close\r\n', '') + body;
    return one.repeat(pick([2, 5, 12]));
  },
  noise: (_parts, _body, { below }) =>
    Array.from({ length: below(400) }, () => String.fromCharCode(below(256))).join(''),
};
const NAMES = Object.keys(FRAMES);

export function framed(parts: Parts, chance: Chance): SentRequest {
  const name = chance.pick(NAMES);
  const text = FRAMES[name]?.(parts, parts.body.toString('latin1'), chance) ?? '';
  return { octets: Buffer.from(text, 'latin1'), story: `${parts.story}, ${name}`, isWhole: false };
}
