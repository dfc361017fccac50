import { readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { type Documents, keepDocuments, type PassageDocument } from '../../server/documents/index.ts';
import { demoFile, demoText, testDocuments, type TestDocuments } from './test-documents.ts';

let kept: TestDocuments;
let documents: Documents;
beforeEach(async () => {
  kept = testDocuments();
  ({ documents } = kept);
  await documents.followFile();
});
afterEach(() => kept.close());

function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
const codesOf = (result: Result<unknown>): readonly string[] =>
  result.ok ? [] : result.problems.map(({ code }) => code);
const shown = async (of: Documents = documents): Promise<PassageDocument> => valueOf(await of.passageDocument());
const named =
  (name: string) =>
  (file: PassageFile): Result<PassageFile> =>
    ok({ ...file, name });
const rename = async (name: string, expected?: { number: number; version: number }): Promise<Result<PassageDocument>> =>
  documents.savePassage({ expected: expected ?? (await shown()), change: named(name) });
const changedFile = (name: string): string => JSON.stringify({ ...(JSON.parse(demoText) as object), name });

describe('a passage file that the store has not', () => {
  it('taken over as it is: passage 1, version 1, its text and the checked passage', async () => {
    const document = await shown();
    expect([document.number, document.version, document.sourceName, document.fileState, document.isEdited]).toEqual([
      1,
      1,
      'demo-passage.json',
      'same',
      false,
    ]);
    expect(document.file).toEqual(JSON.parse(demoText));
    expect(document.passage.jobs).toHaveLength(document.file.jobs?.length ?? -1);
    expect(valueOf(documents.passageText()).text).toBe(demoText);
  });

  it('a byte order mark before it: left out', async () => {
    kept.writeFile(`\uFEFF${demoText}`);
    expect((await shown()).fileState).toBe('same');
  });

  it('a file that is no passage: nothing is taken over, its problems are the answer, until it is put right', async () => {
    const bad = testDocuments('{"slatch":1,}');
    await bad.documents.followFile();
    expect(codesOf(await bad.documents.passageDocument())).toEqual(['passage.not-json']);
    expect(codesOf(bad.documents.passageText())).toEqual(['passage.not-json']);
    expect(codesOf(await bad.documents.savePassage({ expected: { number: 1, version: 1 }, change: ok }))).toEqual([
      'passage.not-json',
    ]);
    expect(valueOf(bad.documents.documentList())).toEqual([]);
    bad.writeFile(demoText);
    expect(valueOf(await bad.documents.followFile())).toBe(true);
    expect((await shown(bad.documents)).version).toBe(1);
    bad.close();
  });

  it('a second file with a passage of the same name: a document of its own, its name numbered', async () => {
    const file = join(dirname(kept.file), 'copy.json');
    writeFileSync(file, demoText);
    const second = keepDocuments({ store: kept.store, file, nowEpochMs: () => 0 });
    valueOf(await second.followFile());
    expect([(await shown(second)).number, (await shown(second)).name]).toEqual([2, `${(await shown()).name} (2)`]);
    valueOf(await rename('Edited'));
    expect((await shown(second)).file.name).toBe((JSON.parse(demoText) as { name: string }).name);
  });

  it('the demo, changed and taken over anew: its file and folder stay as they were', async () => {
    const seen = (): unknown => [
      readFileSync(demoFile, 'utf8'),
      statSync(demoFile).mtimeMs,
      readdirSync(dirname(demoFile)),
    ];
    const before = seen();
    const demo = keepDocuments({ store: kept.store, file: demoFile, nowEpochMs: () => 0 });
    valueOf(await demo.followFile());
    valueOf(await demo.savePassage({ expected: await shown(demo), change: named('Edited') }));
    valueOf(await demo.takeOverFile(await shown(demo)));
    expect(seen()).toEqual(before);
  });
});

describe('savePassage', () => {
  it('a good change: the next version, whole and checked, and still there after a restart', async () => {
    const saved = valueOf(await rename('Home before winter'));
    expect([saved.version, saved.file.name, saved.passage.name, saved.name, saved.isEdited]).toEqual([
      2,
      'Home before winter',
      'Home before winter',
      'Home before winter',
      true,
    ]);
    const again = kept.restarted();
    expect(valueOf(await again.followFile())).toBe(false);
    expect((await shown(again)).file).toEqual(saved.file);
    expect(valueOf(again.passageText()).version).toBe(2);
  });

  it('keys keep the order of the file', async () => {
    valueOf(await rename('Other'));
    const keys = (text: string): string[] => Object.keys(JSON.parse(text) as object);
    expect(keys(valueOf(documents.passageText()).text)).toEqual(keys(demoText));
  });

  it('a change that breaks the passage in two places: both problems with their place, nothing written', async () => {
    const before = valueOf(documents.passageText());
    const saved = await documents.savePassage({
      expected: before,
      change: (file) => ok({ ...file, start: { ...file.start, lat: 95 }, settings: { seed: -1 } }),
    });
    if (saved.ok) throw new Error('it was saved');
    expect(saved.problems.map(({ where }) => where).toSorted()).toEqual([
      'passage 1, settings.seed',
      'passage 1, start.lat',
    ]);
    for (const problem of saved.problems) for (const said of Object.values(problem)) expect(said).not.toBe('');
    expect(valueOf(documents.passageText())).toEqual(before);
  });

  it('a change that makes a number of nothing: refused', async () => {
    const saved = await documents.savePassage({
      expected: await shown(),
      change: (file) => ok({ ...file, start: { ...file.start, lat: Number.NaN } }),
    });
    expect(saved.ok).toBe(false);
    expect((await shown()).version).toBe(1);
  });

  it('a change that finds a problem itself: that problem, nothing written', async () => {
    const problem = { code: 'form.number', where: 'minutes', what: 'x', expected: 'a number', remedy: 'Write one.' };
    const saved = await documents.savePassage({ expected: await shown(), change: () => failed(problem) });
    expect(saved).toEqual({ ok: false, problems: [problem] });
    expect((await shown()).version).toBe(1);
  });

  it('a change that changes nothing: no new version', async () => {
    expect(valueOf(await documents.savePassage({ expected: await shown(), change: ok })).version).toBe(1);
    expect(valueOf(documents.documentVersions(1))).toHaveLength(1);
  });

  it('saved by two tabs from one version: the second is told, and the first is kept', async () => {
    const expected = await shown();
    const [first, second] = await Promise.all([rename('First', expected), rename('Second', expected)]);
    expect([first.ok, second.ok].filter(Boolean)).toHaveLength(1);
    expect([...codesOf(first), ...codesOf(second)]).toEqual(['store.version-conflict']);
    expect((await shown()).version).toBe(2);
    expect(codesOf(await rename('Third', expected))).toEqual(['store.version-conflict']);
  });

  it('the same form twice, as by a second press: saved once, and the second is told that it is', async () => {
    await rename('Pressed twice', { number: 1, version: 1 });
    const again = valueOf(await rename('Pressed twice', { number: 1, version: 1 }));
    expect([again.version, again.file.name]).toEqual([2, 'Pressed twice']);
    expect(valueOf(documents.documentVersions(1))).toHaveLength(2);
    // Somebody else’s change between the two: what is kept is no longer what the form asked for.
    await rename('Other', { number: 1, version: 2 });
    expect(codesOf(await rename('Pressed twice', { number: 1, version: 1 }))).toEqual(['store.version-conflict']);
  });

  it('taken back twice, as by a second press: once; then the change can be put back by the same way', async () => {
    await rename('Changed');
    const back = { expected: { number: 1, version: 2 }, version: 1 };
    expect(valueOf(await documents.bringBackVersion(back)).version).toBe(3);
    const again = valueOf(await documents.bringBackVersion(back));
    expect([again.version, again.file]).toEqual([3, JSON.parse(demoText)]);
    const forth = valueOf(await documents.bringBackVersion({ expected: { number: 1, version: 3 }, version: 2 }));
    expect([forth.version, forth.file.name]).toEqual([4, 'Changed']);
  });

  it('saved by another process beside: seen at once, and its version counts', async () => {
    const before = await shown();
    kept.store.passages.save(1, { expectedVersion: 1, name: 'Beside', json: changedFile('Beside'), atEpochMs: 1 });
    expect((await shown()).file.name).toBe('Beside');
    expect(codesOf(await rename('Late', before))).toEqual(['store.version-conflict']);
  });

  it('forty changes at once from the newest version each has seen: one is taken each time, none is lost', async () => {
    let refusedCount = 0;
    const one = async (name: string): Promise<void> => {
      const saved = await documents.savePassage({
        expected: await shown(),
        change: (file) => ok({ ...file, locker: [...(file.locker ?? []), { item: name, unit: 'm', onBoard: 1 }] }),
      });
      if (saved.ok) return;
      refusedCount += 1;
      await one(name);
    };
    await Promise.all(Array.from({ length: 40 }, (_, index) => one(`rope ${index}`)));
    const items = (await shown()).file.locker?.filter(({ item }) => item.startsWith('rope ')) ?? [];
    expect(items).toHaveLength(40);
    expect([(await shown()).version, refusedCount > 0]).toEqual([41, true]);
  });
});

describe('the file changed since it was taken over', () => {
  it('passage not edited: followed as its next version, in the same place, the earlier kept', async () => {
    kept.writeFile(changedFile('Mended by hand'));
    expect(await shown()).toMatchObject({ fileState: 'changed', isFileChanged: true, version: 1 });
    expect(valueOf(await documents.followFile())).toBe(true);
    expect(await shown()).toMatchObject({ number: 1, version: 2, isFileChanged: false, isEdited: false });
    expect(valueOf(kept.store.documents.versionText({ number: 1, version: 1 }))).toBe(demoText);
  });

  it('passage edited: it stays, and the change is told; also after a restart', async () => {
    await rename('Edited');
    kept.writeFile(changedFile('Mended by hand'));
    const again = kept.restarted();
    expect(valueOf(await again.followFile())).toBe(false);
    expect(await shown(again)).toMatchObject({ isFileChanged: true, isEdited: true, file: { name: 'Edited' } });
  });

  it('taken over anew: a second passage with a name of its own; the first is kept and can be shown again', async () => {
    await rename('Edited');
    const taken = valueOf(await documents.takeOverFile(await shown()));
    expect([taken.number, taken.version, taken.isEdited, taken.file]).toEqual([2, 1, false, JSON.parse(demoText)]);
    expect(valueOf(documents.documentList()).map(({ number, name }) => [number, name])).toEqual([
      [1, 'Edited'],
      [2, taken.file.name],
    ]);
    expect(valueOf(await documents.showDocument(1)).file.name).toBe('Edited');
    expect((await shown()).number).toBe(1);
    expect((await shown(kept.restarted())).number).toBe(1);
  });

  it('taken over twice at once: one new passage', async () => {
    await rename('Edited');
    const expected = await shown();
    const both = await Promise.all([documents.takeOverFile(expected), documents.takeOverFile(expected)]);
    expect(both.flatMap(codesOf)).toEqual(['store.version-conflict']);
    expect(valueOf(documents.documentList())).toHaveLength(2);
  });

  it('taken over from a page of an earlier state: refused', async () => {
    const before = await shown();
    await rename('Edited');
    expect(codesOf(await documents.takeOverFile(before))).toEqual(['store.version-conflict']);
  });

  it('a form of the passage shown before: refused, though its version is that of the one shown now', async () => {
    const before = await shown();
    await rename('Edited');
    valueOf(await documents.takeOverFile(await shown()));
    expect((await shown()).version).toBe(before.version);
    expect(codesOf(await rename('Late', before))).toEqual(['store.version-conflict']);
  });

  it('changed into no passage: the one shown stays, and the problems are told when it is asked for', async () => {
    kept.writeFile('{');
    expect((await shown()).isFileChanged).toBe(true);
    expect(codesOf(await documents.followFile())).toEqual(['passage.not-json']);
    expect(codesOf(await documents.takeOverFile(await shown()))).toEqual(['passage.not-json']);
    expect((await shown()).version).toBe(1);
  });

  it('touched, and the same: nothing is said', async () => {
    kept.writeFile(demoText);
    expect((await shown()).fileState).toBe('same');
  });

  it('gone: the passage is shown, changed and kept without it', async () => {
    rmSync(kept.file);
    expect(await shown()).toMatchObject({ fileState: 'unreadable', isFileChanged: false });
    expect(valueOf(await rename('Without a file')).version).toBe(2);
    expect(valueOf(await kept.restarted().followFile())).toBe(false);
  });
});

describe('the track in a file of its own', () => {
  const onGpx = JSON.stringify({ ...(JSON.parse(demoText) as object), track: { gpx: 'track.gpx' } });

  it('not beside the passage: nothing is taken over, and its name is told', async () => {
    const bad = testDocuments(onGpx);
    await bad.documents.followFile();
    const document = await bad.documents.passageDocument();
    expect(codesOf(document)).toEqual(['file.unreadable']);
    expect(document).toMatchObject({ problems: [{ where: expect.stringMatching(/track\.gpx$/) as unknown }] });
    bad.close();
  });
});
