/** What a file without a single GRIB message is instead. */
import type { Problem } from '../result/index.ts';

interface Lookalike {
  readonly code: string;
  readonly beginsWith: RegExp;
  readonly what: string;
  readonly remedy: string;
}

const ERROR_PAGE_REMEDY =
  'The download address probably answered with an error page: open the file in a browser, then check address, date and area.';
const DECOMPRESS_REMEDY = 'Decompress the file first (bunzip2, gunzip, unzip), then read the result.';

/** Beginnings with white space skipped; octets outside printable ASCII are written as `~` and two hexadecimal digits. */
const LOOKALIKES: readonly Lookalike[] = [
  {
    code: 'grib.web-page',
    beginsWith: /^(<!doctype html|<html|<head|<body|<!--)/i,
    what: 'This is a web page, not a GRIB file.',
    remedy: ERROR_PAGE_REMEDY,
  },
  {
    code: 'grib.error-answer',
    beginsWith: /^(<\?xml|<[a-z]|\{|\[)/i,
    what: 'This is an XML or JSON answer, not a GRIB file.',
    remedy: ERROR_PAGE_REMEDY,
  },
  {
    code: 'grib.compressed',
    // The first octets of bzip2, gzip, zip, xz, 7z and zstd files.
    beginsWith: /^(bzh|~1f~8b|pk~03~04|~fd7zxz|7z~bc~af|\(~b5\/~fd)/i,
    what: 'This file is compressed.',
    remedy: DECOMPRESS_REMEDY,
  },
  {
    code: 'grib.other-format',
    beginsWith: /^(CDF~0[125]|~89HDF|BUFR)/,
    what: 'This is another weather format (NetCDF, HDF5 or BUFR), not a GRIB file.',
    remedy: 'Ask the source for GRIB.',
  },
];

/** `grib.empty-file`, `grib.web-page`, `grib.error-answer`, `grib.compressed`, `grib.other-format` or `grib.not-grib`. */
export function notGrib(bytes: Uint8Array, fileName: string): Problem {
  const expected = 'messages that begin with the letters GRIB';
  if (bytes.length === 0) {
    const what = 'The file is empty.';
    return { code: 'grib.empty-file', where: fileName, what, expected, remedy: 'Fetch the file again.' };
  }
  const beginning = printable(bytes.subarray(0, 512)).replace(/^(~ef~bb~bf)?( |~0[9ad])*/, '');
  const found = LOOKALIKES.find((lookalike) => lookalike.beginsWith.test(beginning));
  if (found !== undefined) {
    return { code: found.code, where: fileName, what: found.what, expected, remedy: found.remedy };
  }
  const what = 'The file holds no GRIB message.';
  return { code: 'grib.not-grib', where: fileName, what, expected, remedy: 'Check that this is the forecast file.' };
}

const printable = (bytes: Uint8Array): string =>
  Array.from(bytes, (octet) => {
    const isPrintable = octet >= 0x20 && octet < 0x7e;
    return isPrintable ? String.fromCharCode(octet) : `~${octet.toString(16).padStart(2, '0')}`;
  }).join('');
