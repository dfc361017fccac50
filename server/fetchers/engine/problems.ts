/** Everything that can stand between a boat and a forecast, in words. */
import type { Problem } from '../../../lib/result/index.ts';
import { shownAddress } from '../sources/shown-address.ts';

export const cancelled = (address: string): Problem => ({
  code: 'fetch.cancelled',
  where: shownAddress(address),
  what: 'Fetching was stopped; what has come so far is kept.',
  expected: 'the fetch to go on to its end',
  remedy: 'Start the same fetch again: it goes on where it stopped.',
});

export const lineBroken = (address: string, reason: string): Problem => ({
  code: 'fetch.line-broken',
  where: shownAddress(address),
  what: `The line broke: ${reason}.`,
  expected: 'the file to its end',
  remedy: 'Start the same fetch again: it goes on where it stopped.',
});

export const noAnswer = (address: string, timeoutMs: number): Problem => ({
  code: 'fetch.no-answer',
  where: shownAddress(address),
  what: `Nothing came for ${timeoutMs / 1000} s.`,
  expected: 'an answer',
  remedy: 'Check the line, or give more time with --timeout-s.',
});

export function badStatus(address: string, status: number): Problem {
  const where = shownAddress(address);
  if (status === 404 || status === 410 || status === 403) {
    return {
      code: 'fetch.not-there',
      where,
      what: `The source has no such file (status ${status}).`,
      expected: 'a file that is published',
      remedy: 'It may not be published yet, or no longer: take an earlier or a later cycle.',
    };
  }
  return {
    code: 'fetch.status',
    where,
    what: `The source answered with status ${status}.`,
    expected: 'status 200 or 206',
    remedy: status >= 500 || status === 429 ? 'Try again later.' : 'Check the address and the terms of the source.',
  };
}

export const askedToWait = (address: string, waitMs: number): Problem => ({
  code: 'fetch.asked-to-wait',
  where: shownAddress(address),
  what: `The source asks to be left alone for ${Math.ceil(waitMs / 60_000)} min.`,
  expected: 'an answer sooner',
  remedy: 'Start the same fetch again after that time: it goes on where it stopped.',
});

export const badRedirect = (address: string, what: string): Problem => ({
  code: 'fetch.redirect',
  where: shownAddress(address),
  what,
  expected: 'at most 5 redirects, over HTTP or HTTPS, never from HTTPS to HTTP',
  remedy: 'Ask the source for its address, and fetch from there.',
});

export const tooLarge = (address: string, mostOctets: number): Problem => ({
  code: 'fetch.too-large',
  where: shownAddress(address),
  what: 'There is more to fetch than is allowed.',
  expected: `at most ${Math.round(mostOctets / 1e6)} MB in all`,
  remedy: 'Take fewer steps, quantities or members, or allow more with --most-mb.',
});

export const noRanges = (address: string): Problem => ({
  code: 'fetch.no-ranges',
  where: shownAddress(address),
  what: 'The source sends whole files only, not the parts asked for.',
  expected: 'an answer with status 206',
  remedy: 'Take a source without an index, or another place that holds the same files.',
});

export const fileChanged = (address: string): Problem => ({
  code: 'fetch.file-changed',
  where: shownAddress(address),
  what: 'The file at the source changed while it was fetched; it is begun again.',
  expected: 'the same file until its end',
  remedy: 'Fetch again later, when the source has done with it.',
});

export const wrongPart = (address: string): Problem => ({
  code: 'fetch.wrong-part',
  where: shownAddress(address),
  what: 'The source sent another part of the file than was asked for.',
  expected: 'the octets asked for',
  remedy: 'Fetch again later, or take another place that holds the same files.',
});

export const wrongLength = (address: string, length: { gotOctets: number; promisedOctets: number }): Problem => ({
  code: 'fetch.wrong-length',
  where: shownAddress(address),
  what: `${length.gotOctets} octets came.`,
  expected: `${length.promisedOctets} octets, as the source promised`,
  remedy: 'Fetch again.',
});

export const notGrib = (address: string, said: { type: string; start: string }): Problem => ({
  code: 'fetch.not-grib',
  where: shownAddress(address),
  what: `What came is no GRIB file${said.type === '' ? '' : ` but ${said.type}`}: it begins with "${said.start}".`,
  expected: 'a file that begins with GRIB',
  remedy: 'Open the address in a browser: a page of the harbour network or of the source may want an answer first.',
});

export const notWhole = (address: string): Problem => ({
  code: 'fetch.not-whole',
  where: shownAddress(address),
  what: 'The file does not end as a GRIB file ends.',
  expected: '7777 at its end',
  remedy: 'Fetch again; nothing of it was kept.',
});

export const otherCount = (address: string, count: { foundCount: number; wantedCount: number }): Problem => ({
  code: 'fetch.other-count',
  where: shownAddress(address),
  what: `${count.foundCount} messages came.`,
  expected: `${count.wantedCount} messages, as the index lists them`,
  remedy: 'Fetch again later: index and file do not belong together.',
});

export const nothingRead = (address: string): Problem => ({
  code: 'fetch.nothing-useful',
  where: shownAddress(address),
  what: 'The file holds no quantity that Slatch reads.',
  expected: 'wind, gusts, waves, pressure or others of "slatch forecast list"',
  remedy: 'Take another file of the source.',
});

export const otherCycle = (address: string, cycle: { found: string; wanted: string }): Problem => ({
  code: 'fetch.other-cycle',
  where: shownAddress(address),
  what: `The forecast is of the run of ${cycle.found}.`,
  expected: `the run of ${cycle.wanted}`,
  remedy: 'Take another cycle, or look whether the addresses of the source have changed.',
});

export const quantityMissing = (where: string, names: readonly string[]): Problem => ({
  code: 'fetch.quantity-missing',
  where,
  what: `What came holds no ${names.join(', no ')}.`,
  expected: 'every quantity asked for',
  remedy: 'Leave it out of --quantities, or take another source.',
});

export const beingFetched = (address: string): Problem => ({
  code: 'fetch.busy',
  where: shownAddress(address),
  what: 'Another fetch of the same file is under way.',
  expected: 'one fetch of each file',
  remedy: 'Let it end, or stop it.',
});

export const cannotKeep = (folder: string, reason: string): Problem => ({
  code: 'fetch.cannot-write',
  where: folder,
  what: `What is fetched cannot be written: ${reason}.`,
  expected: 'a folder that may be written, and space on its disk',
  remedy: 'Check the folder and the space on the disk, then start the same fetch again.',
});
