/** Forms with files (RFC 7578), right and wrong. */
import type { Chance } from '../chance.ts';
import { archiveContent } from './archive-content.ts';
import { FIELD_TEXTS } from './hostile-texts.ts';

interface Body {
  readonly type: string;
  readonly body: Buffer;
}

const BOUNDARY = 'slatch-boundary';
const FILE_NAMES = [
  'x.grib2',
  '../../x.grib2',
  '..\\..\\x.grib',
  '/etc/passwd',
  'a\0.grib',
  '',
  ' ',
  '.',
  '..',
  'CON',
  'é.grib',
  '%2e%2e%2fx',
  'x'.repeat(3000),
  '"',
  'a"; name="version',
  'x.gpx',
  'x.csv',
  '\u202Ebirg.x',
  '<b>.grib',
];
const CONTENTS = [
  '',
  'GRIB',
  'GRIB\0\0\0\u0002',
  '7777',
  '<gpx',
  'twa_deg,tws_kn\n',
  '\u001F\u008B\u0008',
  'BZh9',
  '\0'.repeat(2000),
  'x'.repeat(70_000),
];

const field = (name: string, value: string): string =>
  `Content-Disposition: form-data; name="${name.replaceAll(/["\r\n]/g, '_')}"\r\n\r\n${value}`;

function file(chance: Chance): string {
  const { pick, oneIn } = chance;
  const name = pick(FILE_NAMES);
  const names = oneIn(4) ? `filename*=UTF-8''${encodeURIComponent(name.replace('\u202E', ''))}` : `filename="${name}"`;
  const encoding = oneIn(5) ? '\r\nContent-Transfer-Encoding: base64' : '';
  const input = pick(['forecast', 'gpx', 'archive', 'archive', 'file', 'passage', '__proto__', '']);
  const content = oneIn(input === 'archive' ? 1 : 20) ? archiveContent(chance) : pick(CONTENTS);
  return `Content-Disposition: form-data; name="${input}"; ${names}${encoding}\r\nContent-Type: ${pick(['', 'text/plain', 'x'])}\r\n\r\n${content}`;
}

const joined = (parts: readonly string[], boundary: string): string =>
  `${parts.map((part) => `--${boundary}\r\n${part}\r\n`).join('')}--${boundary}--\r\n`;

/** The form with its fields; `lies`: with files, and wrong in one way or another. */
export function multipartBody(fields: readonly (readonly [string, string])[], chance: Chance, lies: boolean): Body {
  const own = fields.map(([name, value]) => field(name, value));
  if (!lies) return { type: `multipart/form-data; boundary=${BOUNDARY}`, body: Buffer.from(joined(own, BOUNDARY)) };
  const { pick, below, oneIn } = chance;
  const parts = [...own, file(chance), ...(oneIn(3) ? [file(chance)] : [])];
  const whole = joined(parts, BOUNDARY);
  const text = pick([
    () => whole,
    () => whole,
    () =>
      joined(
        parts.map((part, i) => (i === below(parts.length) ? field('name', pick(FIELD_TEXTS)) : part)),
        BOUNDARY,
      ),
    () => whole.slice(0, below(whole.length)),
    () => whole.replaceAll('\r\n', '\n'),
    () => whole.replace(`--${BOUNDARY}--`, `--${BOUNDARY}`),
    () =>
      joined(
        Array.from({ length: 25 }, () => file(chance)),
        BOUNDARY,
      ),
    () =>
      joined(
        Array.from({ length: oneIn(5) ? 1100 : 3 }, (_, i) => field(`f${i}`, '')),
        BOUNDARY,
      ),
    () => joined([`${'X-Flood: 1\r\n'.repeat(2000)}\r\n`, ...parts], BOUNDARY),
    () => joined([`Content-Type: multipart/mixed; boundary=y\r\n\r\n--y\r\n\r\nx\r\n--y--`, ...parts], BOUNDARY),
    () => joined(['\r\nno head', 'Content-Disposition: form-data\r\n\r\nx', ...parts], BOUNDARY),
    () => joined([field('name', oneIn(20) ? 'x'.repeat(1_100_000) : 'x'), ...parts], BOUNDARY),
    () => whole.repeat(2),
    () => `preamble\r\n${whole}epilogue`,
    () => `--${BOUNDARY}\r\n`.repeat(3000),
  ])();
  const boundary = pick([
    BOUNDARY,
    BOUNDARY,
    BOUNDARY,
    `"${BOUNDARY}"`,
    '',
    'other',
    'x'.repeat(2000),
    `${BOUNDARY}; boundary=y`,
  ]);
  return { type: `multipart/form-data; boundary=${boundary}`, body: Buffer.from(text) };
}
