import type { Problem } from '../../lib/result/index.ts';
import { sizeText } from '../../lib/units/index.ts';

const RESTORE = 'Bring a backup back with "slatch store restore FILE --force", which keeps this store beside it.';
const GET_AGAIN = 'Remove it on the page of the forecasts and get it again, or bring a backup back.';

export const forecastDamaged = (where: string): Problem => ({
  code: 'store.forecast-damaged',
  where,
  what: 'The forecast file is damaged: its content is not what its name says.',
  expected: 'content with the SHA-256 that is its name',
  remedy: GET_AGAIN,
});

export const forecastMissing = (folder: string, hash: string): Problem => ({
  code: 'store.forecast-missing',
  where: `${folder}, ${hash}.grib`,
  what: 'The store lists this forecast, and its file is not there.',
  expected: 'a file for every forecast that is listed',
  remedy: GET_AGAIN,
});

export const sizeDiffers = (where: string, listedOctets: number, foundOctets: number): Problem => ({
  code: 'store.forecast-size',
  where,
  what: `The store lists it with ${listedOctets} octets; it has ${foundOctets}.`,
  expected: 'the size that is listed',
  remedy: RESTORE,
});

export const gapIn = (
  where: string,
  { table, passage, most, held }: { table: string; passage: number; most: number; held: number },
): Problem => ({
  code: 'store.numbering',
  where: `${where}, ${table}, passage ${passage}`,
  what: `The numbering has gaps: the last is ${most}, and there are ${held}.`,
  expected: 'numbers from 1 on, without gaps',
  remedy: RESTORE,
});

export const unlisted = (where: string, sizeOctets: number): Problem => ({
  code: 'store.forecast-unlisted',
  where,
  what: `The file (${sizeText(sizeOctets)}) is not in the list of forecasts; its adding was cut short.`,
  expected: 'only files that are listed',
  remedy: 'It does no harm. Adding the same forecast again takes it up; otherwise it may be deleted.',
});

export const partLeft = (where: string, sizeOctets: number): Problem => ({
  code: 'store.part-left',
  where,
  what: `The half-written file (${sizeText(sizeOctets)}) of a program that was killed is left.`,
  expected: 'no half-written files',
  remedy: 'It does no harm; the next start removes it.',
});

export const openToOthers = (where: string, mode: number): Problem => ({
  code: 'store.open-to-others',
  where,
  what: `Others on this machine may look into the folder (its mode is ${(mode & 0o777).toString(8)}).`,
  expected: 'a folder for its owner alone (700)',
  remedy: 'If nobody else is to read your passages: chmod 700 on the folder.',
});

export const serverKilled = (where: string, note: string): Problem => ({
  code: 'store.server-killed',
  where,
  what: `The last server (${note}) ended without closing the store.`,
  expected: 'an end by Ctrl-C or SIGTERM',
  remedy: 'Nothing that was acknowledged is lost; the next start goes on.',
});
