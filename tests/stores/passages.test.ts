import { describe, expect, it } from 'vitest';
import { openStore } from '../../server/stores/index.ts';
import { aPassage, aPlan, codesOf, freshFolder, freshStore, valueOf } from './store-fixture.ts';

describe('passages', () => {
  it('created: numbered from 1, version 1, found by number and by name', () => {
    const { passages } = freshStore();
    const first = valueOf(passages.create(aPassage));
    const second = valueOf(passages.create({ ...aPassage, name: 'Biscay' }));
    expect(first).toEqual({
      number: 1,
      name: 'Tasman',
      version: 1,
      json: aPassage.json,
      savedAtEpochMs: aPassage.atEpochMs,
    });
    expect(second.number).toBe(2);
    expect(valueOf(passages.get(1))).toEqual(first);
    expect(valueOf(passages.find('Biscay'))).toEqual(second);
    expect(valueOf(passages.list()).map(({ number, name }) => [number, name])).toEqual([
      [1, 'Tasman'],
      [2, 'Biscay'],
    ]);
  });

  it('one that is not there: null', () => {
    const { passages } = freshStore();
    expect(valueOf(passages.get(7))).toBeNull();
    expect(valueOf(passages.find('Nowhere'))).toBeNull();
  });

  it('a name that is taken: refused when creating and when renaming', () => {
    const { passages } = freshStore();
    passages.create(aPassage);
    passages.create({ ...aPassage, name: 'Biscay' });
    expect(codesOf(passages.create(aPassage))).toEqual(['store.name-taken']);
    expect(codesOf(passages.save(2, { ...aPassage, expectedVersion: 1 }))).toEqual(['store.name-taken']);
    expect(valueOf(passages.list())).toHaveLength(2);
  });

  it('saved at its version: the version counts up and the text changes', () => {
    const { passages } = freshStore();
    passages.create(aPassage);
    const change = { expectedVersion: 1, name: 'Tasman Sea', json: '{"slatch":1}', atEpochMs: 5 };
    expect(valueOf(passages.save(1, change))).toEqual({
      number: 1,
      name: 'Tasman Sea',
      version: 2,
      json: '{"slatch":1}',
      savedAtEpochMs: 5,
    });
  });

  it('saved at an old version: refused, and the newer text stays', () => {
    const { passages } = freshStore();
    passages.create(aPassage);
    passages.save(1, { ...aPassage, json: '{"by":"first"}', expectedVersion: 1 });
    const late = passages.save(1, { ...aPassage, json: '{"by":"second"}', expectedVersion: 1 });
    expect(codesOf(late)).toEqual(['store.version-conflict']);
    expect(late).toMatchObject({ problems: [{ what: expect.stringContaining('version 2') as unknown }] });
    expect(valueOf(passages.get(1))).toMatchObject({ version: 2, json: '{"by":"first"}' });
  });

  it('saved without having been created: refused', () => {
    expect(codesOf(freshStore().passages.save(3, { ...aPassage, expectedVersion: 1 }))).toEqual([
      'store.no-such-passage',
    ]);
  });

  it('text that is not JSON: is a mistake of ours and throws, and nothing is written', () => {
    const { passages } = freshStore();
    expect(() => passages.create({ ...aPassage, json: '{"slatch":' })).toThrow(/CHECK|constraint/i);
    expect(valueOf(passages.list())).toEqual([]);
  });

  it('names and texts with quotes, accents and zero bytes escaped: come back as written', () => {
    const { passages } = freshStore();
    const json = JSON.stringify({ note: `O'Brien "x"; DROP TABLE passage; -- \u0000 ü 🌊` });
    passages.create({ ...aPassage, name: `L'Étale "2"`, json });
    expect(valueOf(passages.find(`L'Étale "2"`))?.json).toBe(json);
  });
});

describe('two connections to one store', () => {
  it('what a command writes beside the server: is seen by the server, and both keep optimistic versions', () => {
    const folder = freshFolder();
    const [server, command] = [freshStore(folder), freshStore(folder)];
    server.passages.create(aPassage);
    expect(valueOf(command.passages.save(1, { ...aPassage, expectedVersion: 1 })).version).toBe(2);
    expect(codesOf(server.passages.save(1, { ...aPassage, expectedVersion: 1 }))).toEqual(['store.version-conflict']);
  });
});

describe('plans', () => {
  it('added: numbered within their passage, latest last', () => {
    const { passages, plans } = freshStore();
    passages.create(aPassage);
    passages.create({ ...aPassage, name: 'Biscay' });
    plans.append({ ...aPlan, passageNumber: 1 });
    plans.append({ ...aPlan, passageNumber: 2 });
    const third = valueOf(plans.append({ ...aPlan, passageNumber: 1, seed: 9, json: '{"seed":9}' }));
    expect(third).toMatchObject({ passageNumber: 1, number: 2 });
    expect(valueOf(plans.latest(1))).toEqual(third);
    expect(valueOf(plans.get(1, 1))).toEqual({ ...aPlan, passageNumber: 1, number: 1, madeOfJson: null });
    expect(valueOf(plans.get(1, 3))).toBeNull();
    expect(valueOf(plans.list(1)).map(({ number, seed }) => [number, seed])).toEqual([
      [1, 1],
      [2, 9],
    ]);
    expect(valueOf(plans.latest(3))).toBeNull();
  });

  it('told its number: it bears it in itself; what it was made of is kept beside it', () => {
    const { passages, plans } = freshStore();
    passages.create(aPassage);
    const json = (number: number): string => JSON.stringify({ number });
    plans.append({ ...aPlan, passageNumber: 1, json });
    const second = valueOf(plans.append({ ...aPlan, passageNumber: 1, json, madeOfJson: '{"version":4}' }));
    expect(second).toMatchObject({ number: 2, json: '{"number":2}', madeOfJson: '{"version":4}' });
    expect(valueOf(plans.get(1, 2))).toEqual(second);
    expect(valueOf(plans.list(1)).map(({ madeOfJson }) => madeOfJson)).toEqual([null, '{"version":4}']);
  });

  it('of a passage that is not there: refused', () => {
    expect(codesOf(freshStore().plans.append({ ...aPlan, passageNumber: 4 }))).toEqual(['store.no-such-passage']);
  });
});

describe('log', () => {
  const entry = { passageNumber: 1, kind: 'position', atEpochMs: 10, json: '{"lat":-35.4}', writtenAtEpochMs: 20 };

  it('added: numbered in the order of writing, whenever it happened', () => {
    const { passages, log } = freshStore();
    passages.create(aPassage);
    log.append({ ...entry, atEpochMs: 30 });
    log.append({ ...entry, kind: 'sleep', atEpochMs: 10 });
    expect(valueOf(log.list(1)).map(({ number, kind, atEpochMs }) => [number, kind, atEpochMs])).toEqual([
      [1, 'position', 30],
      [2, 'sleep', 10],
    ]);
    expect(valueOf(log.list(1, 1)).map(({ number }) => number)).toEqual([2]);
    expect(valueOf(log.list(2))).toEqual([]);
  });

  it('of a form: found by it within its passage', () => {
    const { passages, log } = freshStore();
    passages.create(aPassage);
    passages.create({ ...aPassage, name: 'Biscay' });
    log.append(entry);
    const written = valueOf(log.append({ ...entry, formToken: 'a' }));
    expect(written).toEqual({ ...entry, number: 2, formToken: 'a' });
    expect(valueOf(log.ofForm(1, 'a'))).toEqual(written);
    expect([valueOf(log.ofForm(1, 'b')), valueOf(log.ofForm(2, 'a'))]).toEqual([null, null]);
    log.append({ ...entry, passageNumber: 2, formToken: 'a' });
    expect(valueOf(log.ofForm(2, 'a'))?.number).toBe(1);
  });

  it('of a passage that is not there: refused', () => {
    expect(codesOf(freshStore().log.append(entry))).toEqual(['store.no-such-passage']);
  });
});

describe('reopened', () => {
  it('everything acknowledged: is there', () => {
    const folder = freshFolder();
    const store = valueOf(openStore(folder));
    store.passages.create(aPassage);
    store.plans.append({ ...aPlan, passageNumber: 1 });
    store.close();
    const again = freshStore(folder);
    expect(valueOf(again.passages.get(1))?.name).toBe('Tasman');
    expect(valueOf(again.plans.latest(1))?.number).toBe(1);
  });
});
