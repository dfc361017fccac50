import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { mutateArguments } from '../../scripts/mutate-grib/arguments.ts';
import { headerPlaces, readNumber, sectionsOf, totalLengthPlace } from '../../scripts/mutate-grib/header-places.ts';
import { kindsOf } from '../../scripts/mutate-grib/kinds.ts';
import { brokenPromise } from '../../scripts/mutate-grib/problem-promises.ts';
import { sweepOf } from '../../scripts/mutate-grib/sweep.ts';
import { addTallies, EMPTY_TALLY, formatKinds, formatTally } from '../../scripts/mutants/tally.ts';
import { taskOfWords, wordsOfTask } from '../../scripts/mutate-grib/worker.ts';

const golden = fileURLToPath(new URL('../golden/grib/files', import.meta.url));
const sample = (name: string): Uint8Array => new Uint8Array(readFileSync(join(golden, name)));

describe('headerPlaces', () => {
  const simple = sample('am_bm_simple.grib2');
  const edition1 = sample('eq_bm_simple.grib1');

  it('edition 2: the length in Section 0 is that of the file', () => {
    expect(readNumber(simple, totalLengthPlace(simple))).toBe(simple.length);
  });

  it('edition 1: the length in Section 0 is that of the file', () => {
    expect(readNumber(edition1, totalLengthPlace(edition1))).toBe(edition1.length);
  });

  it('sections: their lengths lead from one to the next, up to 7777', () => {
    for (const message of [simple, edition1]) {
      const sections = sectionsOf(message);
      const last = sections.at(-1);
      expect((last?.startIndex ?? 0) + (last?.lengthOctets ?? 0)).toBe(message.length - 4);
    }
    expect(sectionsOf(simple).map(({ sectionNumber }) => sectionNumber)).toEqual([1, 3, 4, 5, 6, 7]);
    expect(sectionsOf(edition1).map(({ sectionNumber }) => sectionNumber)).toEqual([1, 2, 3, 4]);
  });

  it('columns and rows, 40 by 60 as ecCodes reads them (grib_get -p Ni,Nj): among the places', () => {
    for (const message of [simple, edition1]) {
      const numbers = headerPlaces(message).map((place) => readNumber(message, place));
      expect(numbers).toContain(60);
      expect(numbers).toContain(40);
    }
  });

  it('places: all inside the message', () => {
    for (const { startIndex, lengthOctets } of headerPlaces(simple)) {
      expect(startIndex + lengthOctets).toBeLessThanOrEqual(simple.length);
    }
  });
});

describe('mutateArguments', () => {
  it('no words: 100 000 inputs of seed 1 from the samples of the project', () => {
    expect(mutateArguments([])).toEqual({
      count: 100_000,
      seed: 1,
      only: null,
      folders: ['tests/golden', 'sample-forecasts'],
      isSweep: false,
    });
  });

  it('options and folders: taken over', () => {
    const { count, seed, only, folders } = mutateArguments(['--count', '5', '--seed', '7', '--only', '3', 'here']);
    expect([count, seed, only, folders.at(-1)]).toEqual([5, 7, 3, 'here']);
  });

  it('a count in words: refused', () => {
    expect(() => mutateArguments(['--count', 'many'])).toThrow('--count many: expected a whole number');
  });
});

describe('worker task', () => {
  it('to words and back: the same', () => {
    const range = { seed: 4, fromIndex: 1, toIndex: 99, stepCount: 2, skip: [5, 7] };
    const task = { folders: ['a', 'b c'], range, progressPath: '/p', notesPath: '/n' };
    expect(taskOfWords(wordsOfTask(task))).toEqual(task);
    const fresh = { ...task, range: { ...range, skip: [] } };
    expect(taskOfWords(wordsOfTask(fresh))).toEqual(fresh);
    const sweep = { ...task, range: { ...range, seed: null } };
    expect(taskOfWords(wordsOfTask(sweep))).toEqual(sweep);
  });
});

describe('tallies', () => {
  const some = {
    triedCount: 3,
    codes: { decoded: 2, 'grib.end-missing': 1 },
    failures: [{ index: 4, story: 's', fault: 'f' }],
    slowest: { index: 2, amount: 12 },
    largest: { index: 1, amount: 2 ** 21 },
  };

  it('added: counts add up, records are the greater ones', () => {
    const both = addTallies(some, {
      ...EMPTY_TALLY,
      triedCount: 1,
      codes: { decoded: 1 },
      slowest: { index: 9, amount: 50 },
    });
    expect(both).toEqual({
      ...some,
      triedCount: 4,
      codes: { decoded: 3, 'grib.end-missing': 1 },
      slowest: { index: 9, amount: 50 },
    });
  });

  it('in words: the outcomes by how often they came', () => {
    expect(formatTally(some).split('\n')).toEqual([
      '3 inputs, 1 failures',
      '        2  decoded',
      '        1  grib.end-missing',
      'slowest: 12 ms of processor time (input 2)',
      'most memory: grew by 2.0 MiB (input 1)',
    ]);
  });
});

describe('brokenPromise', () => {
  const kept = {
    code: 'grib.data-damaged',
    where: 'f.grib, message 3 (at octet 471 of the file), section 7, octet 6',
    what: 'The stream ends too early.',
    expected: 'all of it',
    remedy: 'Download it again.',
  };

  it('a problem that says where, what and what to do: none', () => {
    expect(brokenPromise(kept, 'f.grib')).toBeNull();
    expect(brokenPromise({ ...kept, code: 'grib.not-grib', where: 'f.grib' }, 'f.grib')).toBeNull();
  });

  it.each([
    ['another file', { where: 'g.grib, message 3 (at octet 471 of the file)' }, 'does not say where'],
    ['no message', { where: 'f.grib' }, 'does not say where'],
    ['nothing said', { what: ' ' }, 'a text is empty'],
    ['no sentence', { remedy: 'download' }, 'no sentence'],
    ['a value never meant to be shown', { what: 'The width is NaN.' }, 'raw or long text'],
    ['a text of the runtime', { what: 'Cannot read properties of undefined.' }, 'raw or long text'],
    ['a text without end', { expected: 'x'.repeat(601) }, 'raw or long text'],
  ])('%s: said', (_, change, said) => {
    expect(brokenPromise({ ...kept, ...change }, 'f.grib')).toContain(said);
  });
});

describe('kinds of samples', () => {
  it('template numbers as ecCodes reads them (grib_get -p gridDefinitionTemplateNumber,...): those of the octets', () => {
    const bytes = sample('am_bm_simple.grib2');
    expect(kindsOf({ name: 's', bytes })).toEqual(['3.0', '4.0', '5.0', '6 bitmap']);
    expect(kindsOf({ name: 's', bytes: sample('eq_bm_simple.grib1') })).toContain('1 packing simple');
  });

  it('in a table: samples, inputs, decoded and refused; kinds without a sample first', () => {
    const counts = new Map([
      ['5.0', 2],
      ['5.99', 0],
    ]);
    const lines = formatKinds({ '5.0': { triedCount: 10, decodedCount: 4 } }, counts).split('\n');
    expect(lines.map((line) => line.trim().split(/\s+/).join(' '))).toEqual([
      'kind samples inputs decoded refused',
      '5.99 0 0 0 0',
      '5.0 2 10 4 6',
    ]);
  });
});

describe('sweepOf', () => {
  const name = 'single_gridpoint.grib1';
  const sweep = sweepOf([{ name, bytes: sample(name) }]);

  it('one sample: cut after every octet once, each section doubled', () => {
    const inputs = Array.from({ length: sweep.count }, (_, index) => sweep.input(index));
    const cuts = inputs.filter(({ story }) => story.includes('cut after octet'));
    expect(cuts.map(({ bytes }) => bytes.length)).toEqual(Array.from({ length: sample(name).length }, (_, i) => i));
    expect(inputs.filter(({ story }) => story.includes('section doubled')).length).toBeGreaterThan(1);
  });

  it('beyond the last input: a mistake', () => {
    expect(() => sweep.input(sweep.count)).toThrow(`there are only ${sweep.count} inputs`);
  });
});
