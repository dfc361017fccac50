/** What is wrong with the input is said in a plain sentence; nothing is printed, written or lost. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../lib/planner/index.ts';
import { slatch, slatchProcess } from './run-slatch.ts';
import { deckJob, folderWith, forecastOctets, type Spoiled, removeFolders, writePassage } from './small-passage.ts';

afterAll(removeFolders);

const octets = forecastOctets();
const onAtlantic = { ni: 11, nj: 6, first: { lat: 30, lon: -40 }, iIncrementDeg: 2, jIncrementDeg: 2 } as const;

/** Names and contents of a folder. */
const contents = (folder: string): readonly string[] =>
  readdirSync(folder).map((name) => `${name}: ${readFileSync(join(folder, name)).toString('base64')}`);

/** Lines of a problem: where, what, what was expected, what to do. */
const SENTENCE = /^[^\n]+: [A-Z"'[{\d-][^\n]* Expected [^\n]+\. [A-Z"][^\n]+[.?]\n/;
const NO_STACK = /^(?![\s\S]*(\n\s+at |\.ts:\d|node:internal|TypeError|undefined|NaN))/;

interface Case extends Spoiled {
  readonly name: string;
  readonly command?: string;
  readonly options?: readonly string[];
  readonly says: readonly (string | RegExp)[];
}

const work = (more: object): object => ({ work: { leastMin: 20, likelyMin: 30, mostMin: 45, ...more } });

const CASES: readonly Case[] = [
  {
    name: 'GRIB cut inside its first message',
    forecast: octets.subarray(0, 60),
    says: ['forecast.grib2, message 1', 'ends after 60 octets', 'cut short'],
  },
  {
    name: 'web page instead of GRIB',
    forecast: '<!DOCTYPE html><html><body>404</body></html>',
    says: ['forecast.grib2: This is a web page', 'check address'],
  },
  { name: 'empty forecast', forecast: '', says: ['forecast.grib2: The file is empty', 'Fetch the file again'] },
  { name: 'text instead of GRIB', forecast: 'wind 12 kn\n', says: ['forecast.grib2', 'GRIB'] },
  { name: 'forecast of a sea without wind', forecast: seaOnly(), says: ['no wind at 10 m'] },
  {
    name: 'forecast that ends before the plan',
    forecast: forecastOctets({ baseH: -48 }),
    says: ['ends at 2026-05-26T12:00Z', '16 h before', 'newer or longer forecast'],
  },
  {
    name: 'forecast that begins after the plan',
    forecast: forecastOctets({ baseH: 48 }),
    says: ['begins at 2026-05-29T00:00Z', '45 h after'],
  },
  {
    name: 'forecast of another ocean',
    forecast: forecastOctets({ grid: { ...onAtlantic, scanningMode: 64 } }),
    says: ["covers 30°00'N to 40°00'N", /by \d+ nm/, 'larger area'],
  },
  {
    name: 'forecast file not there',
    forecast: null,
    says: ['forecast.grib2: There is no such file.', '"forecasts" in passage.json names it'],
  },
  {
    name: 'no forecast named',
    passage: { forecasts: [] },
    says: ['passage.json, forecasts: The passage names no forecast.'],
  },
  {
    name: 'address instead of a forecast file',
    passage: { forecasts: ['https://example.org/a.grib2'] },
    says: ['forecasts[0]: "https://example.org/a.grib2" is an address.', 'Fetch it first'],
  },
  {
    name: 'track of one point',
    passage: { track: [{ lat: -35.5, lon: 176.5 }] },
    says: ['passage.json, track', 'at least 2'],
  },
  {
    name: 'job after one that does not exist',
    passage: { jobs: [deckJob('first'), deckJob('second', { after: ['frist'] })] },
    says: ['jobs[1].after[0]', '"frist"', 'Did you mean "first"?'],
  },
  {
    name: 'jobs that wait for one another',
    passage: { jobs: [deckJob('a', { after: ['c'] }), deckJob('b', { after: ['a'] }), deckJob('c', { after: ['b'] })] },
    says: ['a after c after b after a'],
  },
  {
    name: 'negative minutes',
    passage: { jobs: [deckJob('first', { minutes: work({ leastMin: -20 }) })] },
    says: ['jobs[0].minutes.work.leastMin: -20', 'more than 0'],
  },
  {
    name: 'minutes that fall',
    passage: { jobs: [deckJob('first', { minutes: work({ mostMin: 10 }) })] },
    says: ['jobs[0].minutes.work', 'least, then likely, then most'],
  },
  { name: 'unknown key', passage: { lokcer: [] } as object, says: ['passage.json, lokcer', 'Did you mean "locker"?'] },
  {
    name: 'unknown key inside',
    passage: { settings: { slotMins: 10 } },
    says: ['settings.slotMins', 'Did you mean "slotMin"?'],
  },
  {
    name: 'slots that do not divide an hour',
    passage: { settings: { slotMin: 7 } },
    says: ['settings.slotMin: 7', 'divide an hour'],
  },
  {
    name: 'start in an impossible month',
    passage: { start: { timeUtc: '2026-13-27T03:00Z', lat: -35.5, lon: 176.5 } },
    says: ['start.timeUtc: "2026-13-27T03:00Z" is not an instant'],
  },
  {
    name: 'latitude beyond the pole',
    passage: { start: { timeUtc: '2026-05-27T03:00Z', lat: -95, lon: 176.5 } },
    says: ['start.lat: -95'],
  },
  {
    name: 'handling nobody knows',
    passage: { jobs: [deckJob('first', { handlings: ['run-of'] })] },
    says: ['jobs[0].handlings[0]', '"run-of"', '"run-off"'],
  },
  {
    name: 'handling that exists in no sail state of the job',
    passage: { jobs: [deckJob('first', { handlings: ['heave-to'], sailStates: ['bare-poles'] })] },
    says: ['jobs[0].handlings: None of heave-to exists in bare-poles'],
  },
  {
    name: 'library job nobody knows',
    passage: { jobs: [{ id: 'first', from: 'stitch-teer' }] },
    says: ['jobs[0].from', '"stitch-tear"'],
  },
  {
    name: 'version of another program',
    passage: { slatch: 2 },
    says: ['passage.json, slatch: The file has version 2'],
  },
  {
    name: 'not JSON',
    passage: '{"slatch": 1,\n "name": "x",,}',
    says: ['passage.json, line 2, column 14', 'not JSON'],
  },
  { name: 'empty passage file', passage: '', says: ['passage.json', 'not JSON'] },
  { name: 'a list instead of a passage', passage: '[]', says: ['passage.json', '{"slatch": 1'] },
  {
    name: 'job id nobody knows',
    command: 'windows',
    options: ['--job', 'secnd'],
    says: ['--job secnd: The passage has no job "secnd".', 'Did you mean "second"?'],
  },
];

function seaOnly(): Uint8Array {
  const whole = forecastOctets({ hoursH: 12 });
  const parts: Uint8Array[] = [];
  let [from, index] = [0, 0];
  while (from < whole.length) {
    // Section 0 of edition 2: octets 9 to 16 hold the length of the message; here it fits the last four.
    const length = Buffer.from(whole).readUInt32BE(from + 12);
    // Wind toward east, wind toward north, sea; and again.
    if (index % 3 === 2) parts.push(whole.subarray(from, from + length));
    [from, index] = [from + length, index + 1];
  }
  return Buffer.concat(parts);
}

describe.concurrent('input with something wrong', () => {
  it.each(CASES)(
    '$name: refused with a sentence, code 1',
    async ({ command = 'plan', options = [], says, ...spoiled }) => {
      const file = writePassage(spoiled);
      const before = contents(dirname(file));
      const { code, out, err: said } = await slatch(command, file, ...options);
      // A slow machine is told how far the reading of the forecast is.
      const err = said.replaceAll(/^reading the forecast: \d+ %\n/gm, '');
      expect(err).toMatch(SENTENCE);
      expect(err).toMatch(NO_STACK);
      for (const part of says) expect(err).toMatch(typeof part === 'string' ? literal(part) : part);
      expect({ code, out }).toEqual({ code: 1, out: '' });
      expect(contents(dirname(file))).toEqual(before);
    },
  );

  it('two things wrong in two places: both said at once', async () => {
    const file = writePassage({
      passage: { settings: { slotMin: 7 }, track: [], jobs: [deckJob('first', { after: ['x'] })] },
    });
    const { code, err } = await slatchProcess('plan', file);
    expect(code).toBe(1);
    const parts = err
      .trimEnd()
      .split('\n')
      .map((line) => /json, (\w+)/.exec(line)?.[1]);
    expect(parts).toHaveLength(3);
    expect(new Set(parts)).toEqual(new Set(['jobs', 'settings', 'track']));
  });

  it('passage file not there, or a folder: said', async () => {
    const folder = folderWith({});
    const [absent, isFolder] = await Promise.all([
      slatch('plan', join(folder, 'trip.json')),
      slatch('windows', folder),
    ]);
    expect(absent).toMatchObject({ code: 1, out: '' });
    expect(absent.err).toMatch(/trip\.json: There is no such file\. .*Check the name and the folder\.\n$/);
    expect(isFolder).toMatchObject({ code: 1, out: '' });
    expect(isFolder.err).toContain('This is a folder, not a file.');
    expect(statSync(folder).isDirectory()).toBe(true);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('GRIB cut short far inside: what came is used, the rest reported', async () => {
    const whole = writePassage();
    const cut = writePassage({ forecast: octets.subarray(0, Math.floor(octets.length * 0.6)) });
    const [all, part] = await Promise.all([slatch('plan', whole, '--json'), slatch('plan', cut, '--json')]);
    expect([all.code, part.code]).toEqual([0, 0]);
    expect(part.err).toMatch(/forecast\.grib2, message \d+ .*cut short: fetch the file again\./);
    const ends = [all, part].map(({ out }) => (JSON.parse(out) as Plan).forecast.endUtc);
    expect(ends).toEqual(['2026-05-28T12:00Z', '2026-05-27T21:00Z']);
  });
});

const literal = (text: string): RegExp => new RegExp(text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`));

const WRONG_USE: readonly (readonly [string, readonly string[], string])[] = [
  ['an unknown command', ['plam'], 'Did you mean "plan"?'],
  ['no command', [], 'slatch COMMAND'],
  ['an unknown option', ['plan', 'PASSAGE', '--untill', '2026-05-28T00:00Z'], "'--untill'"],
  ['an option without its value', ['plan', 'PASSAGE', '--until'], '--until'],
  ['no passage', ['plan'], 'no passage file is given'],
  ['two passages', ['windows', 'PASSAGE', 'other.json'], 'one passage file at a time'],
  [
    'an end before now',
    ['plan', 'PASSAGE', '--until', '2026-05-26T00:00Z'],
    'Expected an instant after 2026-05-27T03:00Z',
  ],
  ['an end that is no instant', ['plan', 'PASSAGE', '--until', 'tomorrow'], '"tomorrow" is not an instant'],
  ['now that is no instant', ['windows', 'PASSAGE', '--now', '27 May'], '"27 May" is not an instant'],
  ['half a seed', ['plan', 'PASSAGE', '--seed', '1.5'], '--seed 1.5: expected a whole number'],
  ['a seed that is no number', ['plan', 'PASSAGE', '--seed', 'x'], '--seed x: expected a number'],
  ['a subcommand nobody knows', ['forecast', 'lists'], 'list, values, at, cut or get'],
];

describe.concurrent('wrong use', () => {
  it.each(WRONG_USE)('%s: code 2, the reason, and the help', async (_, args, reason) => {
    const file = writePassage();
    const { code, out, err } = await slatch(...args.map((arg) => (arg === 'PASSAGE' ? file : arg)));
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(reason);
    expect(err).toContain('slatch ');
    expect(err).toMatch(NO_STACK);
  });
});
