import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { openStore, type StoredDocument, textHash } from '../../server/stores/index.ts';
import { codesOf, freshFolder, freshStore, valueOf } from './store-fixture.ts';

const text = { name: 'Tasman', json: '{"slatch":1,"name":"Tasman"}', atEpochMs: 10 };
const taken = { ...text, file: '/boat/tasman.json', folder: '/boat', inPlaceOf: null };
const edited = { name: 'Tasman', json: '{"slatch":1,"name":"Tasman","jobs":[]}', atEpochMs: 20 };

describe('documents', () => {
  it('taken over: version 1, with where it came from and the SHA-256 of its text', () => {
    const { documents } = freshStore();
    const expected: StoredDocument = {
      number: 1,
      version: 1,
      name: 'Tasman',
      json: text.json,
      savedAtEpochMs: 10,
      file: taken.file,
      folder: taken.folder,
      takenHash: createHash('sha256').update(text.json).digest('hex'),
      takenAtEpochMs: 10,
      isMadeHere: false,
    };
    expect(valueOf(documents.takeOver(taken))).toEqual(expected);
    expect(valueOf(documents.shown(taken.file))).toEqual(expected);
    expect(valueOf(documents.shown('/elsewhere/tasman.json'))).toBeNull();
  });

  // NIST FIPS 180-4, example of SHA-256: "abc".
  it('hash of a text: SHA-256', () => {
    expect(textHash('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  it('two boats with passages of one name: both kept, the second numbered', () => {
    const { documents, passages } = freshStore();
    documents.takeOver(taken);
    documents.takeOver({ ...taken, file: '/other/tasman.json', folder: '/other' });
    documents.takeOver({ ...taken, file: '/third/tasman.json', folder: '/third' });
    expect(valueOf(passages.list()).map(({ name }) => name)).toEqual(['Tasman', 'Tasman (2)', 'Tasman (3)']);
    expect(valueOf(documents.shown('/other/tasman.json'))?.number).toBe(2);
  });

  it('made on the pages: shown in the place of the file, which is kept; the same form again makes no second', () => {
    const { documents } = freshStore();
    const first = valueOf(documents.takeOver(taken));
    const form = { ...text, atEpochMs: 30, file: taken.file, folder: taken.folder, formToken: 'form-1' };
    const made = valueOf(documents.make(form));
    expect(made).toMatchObject({ number: 2, version: 1, name: 'Tasman (2)', isMadeHere: true, file: taken.file });
    expect(valueOf(documents.shown(taken.file))).toEqual(made);
    valueOf(documents.show(taken.file, first.number));
    expect(valueOf(documents.make(form))).toEqual(made);
    expect(valueOf(documents.shown(taken.file))?.number).toBe(2);
    expect(valueOf(documents.make({ ...form, formToken: 'form-2' })).number).toBe(3);
    expect(valueOf(documents.list(taken.file)).map(({ isMadeHere }) => isMadeHere)).toEqual([false, true, true]);
  });

  it('saved: the next version; what it came from stays, and so does every earlier text', () => {
    const { documents } = freshStore();
    const first = valueOf(documents.takeOver(taken));
    const second = valueOf(documents.save(first, edited));
    expect([second.version, second.takenHash, second.json]).toEqual([2, textHash(text.json), edited.json]);
    expect(valueOf(documents.versions(1)).map(({ version, savedAtEpochMs }) => [version, savedAtEpochMs])).toEqual([
      [1, 10],
      [2, 20],
    ]);
    expect(valueOf(documents.versionText(first))).toBe(text.json);
    expect(valueOf(documents.versionText({ number: 1, version: 3 }))).toBeNull();
  });

  it('saved at an old version: refused, nothing written', () => {
    const { documents } = freshStore();
    const first = valueOf(documents.takeOver(taken));
    documents.save(first, edited);
    expect(codesOf(documents.save(first, { ...text, atEpochMs: 30 }))).toEqual(['store.version-conflict']);
    expect(codesOf(documents.follow(first, { ...text, atEpochMs: 30 }))).toEqual(['store.version-conflict']);
    expect(valueOf(documents.shown(taken.file))).toMatchObject({ version: 2, json: edited.json });
    expect(valueOf(documents.versions(1))).toHaveLength(2);
  });

  it('renamed to a name that is taken: numbered; saved again under its own name: kept', () => {
    const { documents } = freshStore();
    documents.takeOver(taken);
    const other = valueOf(documents.takeOver({ ...taken, name: 'Biscay', file: '/b.json' }));
    const renamed = valueOf(documents.save(other, edited));
    expect(renamed.name).toBe('Tasman (2)');
    expect(valueOf(documents.save(renamed, { ...edited, name: renamed.name })).name).toBe('Tasman (2)');
  });

  it('following its file: the next version, and the file as taken over is the new one', () => {
    const { documents } = freshStore();
    const first = valueOf(documents.takeOver(taken));
    const followed = valueOf(documents.follow(first, edited));
    expect([followed.number, followed.version, followed.takenHash, followed.takenAtEpochMs]).toEqual([
      1,
      2,
      textHash(edited.json),
      20,
    ]);
  });

  it('taken over anew: a second document is shown, the first is kept and can be shown again', () => {
    const { documents } = freshStore();
    const first = valueOf(documents.takeOver(taken));
    valueOf(documents.takeOver({ ...taken, ...edited, inPlaceOf: first }));
    expect(valueOf(documents.shown(taken.file))?.number).toBe(2);
    expect(valueOf(documents.list(taken.file)).map(({ number, name }) => [number, name])).toEqual([
      [1, 'Tasman'],
      [2, 'Tasman (2)'],
    ]);
    expect(valueOf(documents.show(taken.file, 1)).json).toBe(text.json);
    expect(valueOf(documents.shown(taken.file))?.number).toBe(1);
  });

  it('taken over twice from one state, as by a double click: once', () => {
    const { documents } = freshStore();
    const first = valueOf(documents.takeOver(taken));
    valueOf(documents.takeOver({ ...taken, inPlaceOf: first }));
    expect(codesOf(documents.takeOver({ ...taken, inPlaceOf: first }))).toEqual(['store.version-conflict']);
    expect(codesOf(documents.takeOver(taken))).toEqual(['store.version-conflict']);
    expect(valueOf(documents.list(taken.file))).toHaveLength(2);
  });

  it('a passage of another file, or none: not shown', () => {
    const { documents } = freshStore();
    documents.takeOver(taken);
    documents.takeOver({ ...taken, file: '/other.json' });
    expect(codesOf(documents.show(taken.file, 2))).toEqual(['store.no-such-passage']);
    expect(codesOf(documents.show(taken.file, 9))).toEqual(['store.no-such-passage']);
  });

  it('opened again: everything acknowledged is there', () => {
    const folder = freshFolder();
    const store = valueOf(openStore(folder));
    store.documents.save(valueOf(store.documents.takeOver(taken)), edited);
    store.close();
    expect(valueOf(freshStore(folder).documents.shown(taken.file))).toMatchObject({ version: 2, json: edited.json });
  });
});
