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

/** Beginnings in Latin-1, white space skipped. */
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
    beginsWith: /^(BZh|\u001f\u008b|PK\u0003\u0004|\u00fd7zXZ|7z\u00bc\u00af|\u0028\u00b5\u002f\u00fd)/,
    what: 'This file is compressed.',
    remedy: DECOMPRESS_REMEDY,
  },
  {
    code: 'grib.other-format',
    beginsWith: /^(CDF[\u0001\u0002\u0005]|\u0089HDF|BUFR)/,
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
  const beginning = latin1(bytes.subarray(0, 512)).replace(/^(\u00ef\u00bb\u00bf)?\s*/, '');
  const found = LOOKALIKES.find((lookalike) => lookalike.beginsWith.test(beginning));
  if (found !== undefined) {
    return { code: found.code, where: fileName, what: found.what, expected, remedy: found.remedy };
  }
  const what = 'The file holds no GRIB message.';
  return { code: 'grib.not-grib', where: fileName, what, expected, remedy: 'Check that this is the forecast file.' };
}

const latin1 = (bytes: Uint8Array): string => Array.from(bytes, (octet) => String.fromCharCode(octet)).join('');
