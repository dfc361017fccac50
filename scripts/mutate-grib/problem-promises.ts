/** What every problem owes the user: where, what, what instead, what to do; in words of ours. */
import type { Problem } from '../../lib/result/index.ts';

/** Codes about a file as a whole, which have no message to name. */
const OF_WHOLE_FILE = [
  'grib.empty-file',
  'grib.web-page',
  'grib.error-answer',
  'grib.compressed',
  'grib.other-format',
  'grib.not-grib',
  'forecast.nothing-usable',
  'forecast.too-much',
  'forecast.many-more',
];
const MOST_CHARACTERS = 600;
/** Texts of a runtime, and values that were never meant to be shown. */
const RAW = /undefined|NaN|\[object|Cannot |RangeError|TypeError|ENOENT|Infinity|\bnull\b|is not a function|\d{22}/;

/** The promise a problem breaks, in words; null when it keeps all. */
export function brokenPromise(problem: Problem, fileName: string): string | null {
  const { code, where, what, expected, remedy } = problem;
  const told = `${code} at "${where}": "${what}" expected "${expected}", "${remedy}"`;
  if (!/^[a-z]+(\.[a-z0-9-]+)+$/.test(code)) return `no code: ${told}`;
  if (!isPlaced(code, where, fileName)) return `does not say where: ${told}`;
  const texts = [what, expected, remedy];
  if (texts.some((text) => text.trim() === '')) return `a text is empty: ${told}`;
  if (!/[.?]$/.test(what) || !/[.?]$/.test(remedy)) return `no sentence: ${told}`;
  const raw = [where, ...texts].find((text) => RAW.test(text) || text.length > MOST_CHARACTERS);
  return raw === undefined ? null : `raw or long text "${raw.slice(0, MOST_CHARACTERS)}": ${told}`;
}

/** File, message and its octet in the file; but for what concerns the file as a whole. */
function isPlaced(code: string, where: string, fileName: string): boolean {
  if (code.startsWith('forecast.') && where.startsWith('forecast, ')) return true;
  if (!where.startsWith(fileName)) return false;
  if (code === 'forecast.part-missing') return /, message \d+$/.test(where);
  if (OF_WHOLE_FILE.includes(code)) return true;
  if (code === 'grib.many-more') return /up to message \d+$/.test(where);
  return /, message \d+ \(at octet \d+ of the file\)(, section \d+, octet \d+)?$/.test(where);
}
