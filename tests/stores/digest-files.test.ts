/** A digest in a text file as the forecast of a passage. */
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { digestOfPassage, writeMessage } from '../../lib/message/index.ts';
import { planPassage, type Plan } from '../../lib/planner/index.ts';
import { CHEAP_SOLVE } from '../../scripts/studies/planner.ts';
import { type LoadedPassage, loadPassage } from '../../server/stores/passage-files.ts';
import { forecastOctets, removeFolders, writePassage } from '../end-to-end/small-passage.ts';
import { codesOf, valueOf } from './store-fixture.ts';

afterAll(removeFolders);

const ROOM = { aheadH: 33, mostCharacterCount: 400 };

/** The digest of a passage as the parts of a message. */
function digestOf({ passage, forecast }: LoadedPassage): readonly string[] {
  const nowEpochMs = passage.fixedNowEpochMs ?? 0;
  const digest = valueOf(digestOfPassage({ passage, forecast, nowEpochMs, ...ROOM }));
  return valueOf(
    writeMessage(
      { kind: 'digest', madeEpochMs: nowEpochMs, digest },
      { sender: 'SH', counterNumber: 7 },
      { limitCount: 160, keyOctets: null },
    ),
  );
}

/** A wind that lulls in the afternoon, so that the plan has to choose. */
const windKn = (stepH: number): number => (stepH >= 12 && stepH <= 21 ? 7 : 19);
const whole = async (): Promise<LoadedPassage> =>
  valueOf(await loadPassage(writePassage({ forecast: forecastOctets({ windKn }) })));

/** The same passage beside a text file, which it names. */
const withText = (text: string, forecasts: readonly string[] = ['digest.txt']): string => {
  const file = writePassage({ passage: { forecasts: [...forecasts] }, forecast: forecastOctets({ windKn }) });
  writeFileSync(join(dirname(file), 'digest.txt'), text);
  return file;
};

const planOf = ({ passage, forecast }: LoadedPassage): Plan =>
  valueOf(planPassage({ passage, forecast, nowEpochMs: passage.fixedNowEpochMs ?? 0 }, CHEAP_SOLVE)).plan;

const jobsOf = (plan: Plan): readonly (readonly [string, string])[] =>
  plan.jobs.map(({ jobId, status }) => [jobId, status]);

describe('a passage that names a digest', () => {
  it('planned with it: the jobs the whole forecast lets be done, inside the lull', async () => {
    const loaded = await whole();
    const mail = `Here is the weather:\n${digestOf(loaded).toReversed().join('\n')}\nInstead of the GRIB. Fair winds`;
    const fromDigest = valueOf(await loadPassage(withText(mail)));
    expect(fromDigest.forecast.problems).toEqual([]);
    const [small, full] = [planOf(fromDigest), planOf(loaded)];
    expect(jobsOf(small)).toEqual([
      ['first', 'planned'],
      ['second', 'planned'],
    ]);
    expect(jobsOf(small)).toEqual(jobsOf(full));
    for (const [k, job] of small.jobs.entries()) {
      const gapH = (Date.parse(job.startUtc ?? '') - Date.parse(full.jobs[k]?.startUtc ?? '')) / 3_600_000;
      expect(Math.abs(gapH), job.jobId).toBeLessThanOrEqual(3);
    }
    expect(small.forecast.baseTimeUtc).toBe(full.forecast.baseTimeUtc);
  });

  it('beside GRIB files, or with another digest: refused, for it stands alone', async () => {
    const parts = digestOf(await whole());
    const beside = await loadPassage(withText(parts.join('\n'), ['forecast.grib2', 'digest.txt']));
    expect(codesOf(beside)).toEqual(['passage.digest-not-alone']);
    expect(JSON.stringify(beside)).toContain('forecast.grib2, digest.txt');
    const [one, two] = [parts.join('\n'), parts.join(' ')];
    const both = withText(one, ['digest.txt', 'other.txt']);
    writeFileSync(join(dirname(both), 'other.txt'), two);
    expect(codesOf(await loadPassage(both))).toEqual(['passage.digest-not-alone']);
  });

  it('a part missing or damaged: the reason, and what to ask for', async () => {
    const [first = '', ...rest] = digestOf(await whole());
    expect(codesOf(await loadPassage(withText(rest.join('\n'))))).toContain('message.part-missing');
    const broken = `${first.slice(0, 40)}${first[40] === 'A' ? 'B' : 'A'}${first.slice(41)}`;
    const damaged = await loadPassage(withText([broken, ...rest].join('\n')));
    expect(JSON.stringify(damaged)).toMatch(/is damaged/);
    expect(
      codesOf(
        await loadPassage(
          withText(
            digestOf(await whole())
              .join('\n')
              .toLowerCase(),
          ),
        ),
      ),
    ).toEqual(['message.part-case']);
  });

  it('a text without one: what is wrong with it as a GRIB file', async () => {
    const codes = codesOf(await loadPassage(withText('Fair winds')));
    expect(codes.length).toBeGreaterThan(0);
    expect(codes.every((code) => !code.startsWith('message.'))).toBe(true);
  });
});
