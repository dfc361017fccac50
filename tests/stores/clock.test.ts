/** A clock that is set, and jumps back: numbers give the order, never times. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ok } from '../../lib/result/index.ts';
import { freshStore, valueOf } from './store-fixture.ts';

const clock = fc.integer({ min: -(2 ** 40), max: 2 ** 42 });

describe('a store whose clock jumps about', () => {
  it('versions, log, plans and messages: all are kept, in the order they were written; the latest is the last', () => {
    fc.assert(
      fc.property(fc.array(clock, { minLength: 2, maxLength: 8 }), (times) => {
        const { documents, log, plans, messages } = freshStore();
        const [first = 0, ...rest] = times;
        const text = (atEpochMs: number) => ({ name: 'Bay', json: `{"at":${atEpochMs}}`, atEpochMs });
        const source = { file: '/b.json', folder: '/', inPlaceOf: null };
        let document = valueOf(documents.takeOver({ ...text(first), ...source }));
        for (const at of rest) document = valueOf(documents.save(document, text(at)));
        const passageNumber = document.number;
        for (const [index, at] of times.entries()) {
          const entry = { passageNumber, kind: 'note', json: '{}', atEpochMs: at, writtenAtEpochMs: at };
          expect(valueOf(log.append(entry)).number).toBe(index + 1);
          const plan = { passageNumber, seed: 1, madeAtUtc: String(at), json: `{"at":${at}}`, writtenAtEpochMs: at };
          expect(valueOf(plans.append(plan)).number).toBe(index + 1);
          const message = { passageNumber, kind: 'plan', sender: 'SH', madeAtEpochMs: at, ofJson: '{}' };
          const seal = (counter: number) =>
            ok({ text: `${counter}`, fingerprint: `${counter}`, signature: 'unsigned' });
          const sent = messages.appendSent({ ...message, writtenAtEpochMs: at, formToken: `f${index}`, seal });
          expect(valueOf(sent).counterNumber).toBe(index + 1);
        }
        expect(valueOf(documents.versions(passageNumber)).map(({ savedAtEpochMs }) => savedAtEpochMs)).toEqual(times);
        expect(valueOf(documents.shown('/b.json'))?.savedAtEpochMs).toBe(times.at(-1));
        expect(valueOf(log.list(passageNumber)).map(({ atEpochMs }) => atEpochMs)).toEqual(times);
        expect(valueOf(plans.list(passageNumber)).map(({ writtenAtEpochMs }) => writtenAtEpochMs)).toEqual(times);
        expect(valueOf(plans.latest(passageNumber))?.json).toBe(`{"at":${times.at(-1) ?? 0}}`);
        expect(valueOf(messages.list(passageNumber)).map(({ madeAtEpochMs }) => madeAtEpochMs)).toEqual(times);
      }),
      { seed: 3, numRuns: 5 },
    );
  });

  it('forecasts: the last that came is first, also where the clock was set back before it; one that comes again keeps its place', async () => {
    const { forecasts } = freshStore();
    const add = async (mark: number, atEpochMs: number): Promise<string> => {
      const content = [new Uint8Array(10).fill(mark)];
      return valueOf(await forecasts.add({ fileName: `${mark}`, content, mostOctets: 100, atEpochMs })).hash;
    };
    const hashes = [await add(1, 5_000), await add(2, 9_000), await add(3, 100), await add(4, 7_000)];
    await add(2, 20_000);
    expect(valueOf(forecasts.list()).map(({ hash }) => hash)).toEqual(hashes.toReversed());
    await forecasts.remove(hashes[3] ?? '');
    hashes[3] = await add(5, 1);
    expect(valueOf(forecasts.list()).map(({ hash }) => hash)).toEqual(hashes.toReversed());
  });
});
