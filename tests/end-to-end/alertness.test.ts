/** `slatch alertness` against figures of an independent implementation. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MS_PER_MIN } from '../../lib/time/index.ts';
import { slatch } from './run-slatch.ts';

interface Sample {
  readonly hour: number;
  readonly S: number;
  readonly C: number;
  readonly U: number;
  readonly W: number;
  readonly alertness_SCU: number;
}

interface Golden {
  readonly cases: readonly {
    readonly name: string;
    readonly startS: number;
    readonly sleepsHour: readonly (readonly [number, number])[];
    readonly samples: readonly Sample[];
  }[];
  readonly tolerance: { readonly value: number };
}

// FIPS R package 0.2.1; source, licence and units in the file.
const golden = JSON.parse(
  readFileSync(resolve(import.meta.dirname, '../golden/person/three-process-scenarios.json'), 'utf8'),
) as Golden;

const MIDNIGHT_EPOCH_MS = Date.UTC(2026, 0, 1);
/** Hours are thirds and twelfths rounded to six decimals: whole minutes. */
const utcAt = (hour: number): string =>
  new Date(MIDNIGHT_EPOCH_MS + Math.round(hour * 60) * MS_PER_MIN).toISOString().replace(':00.000Z', 'Z');

/** The file also has a variant of one case with another formula, of S alone; `tests/person` has it. */
const cases = golden.cases.filter(({ name }) => !name.endsWith('continuous'));

describe.concurrent('slatch alertness', () => {
  it.each(cases)('$name: S, C, U, W and alertness of FIPS 0.2.1', async ({ startS, sleepsHour, samples }) => {
    const sleeps = sleepsHour.map(([from, to]) => `${utcAt(from)}/${utcAt(to)}`).join(',');
    const [from, to] = [samples[0]?.hour ?? 0, samples.at(-1)?.hour ?? 0].map(utcAt);
    const model = ['--start-s', String(startS), '--as-published', '--json'];
    const span = ['--from', from ?? '', '--to', to ?? '', '--every-min', '5'];
    const { code, out, err } = await slatch('alertness', '--sleep', sleeps, ...model, ...span);
    expect(code, err).toBe(0);
    const { rows } = JSON.parse(out) as {
      rows: readonly Record<'utc' | 's' | 'c' | 'u' | 'w' | 'alertness', number>[];
    };
    const byUtc = new Map(rows.map((row) => [String(row.utc), row]));
    const differing = samples.flatMap((sample) => {
      const row = byUtc.get(utcAt(sample.hour));
      if (row === undefined) return [`no row at ${sample.hour} h`];
      const found = [row.s, row.c, row.u, row.w, row.alertness];
      const wanted = [sample.S, sample.C, sample.U, sample.W, sample.alertness_SCU];
      const worst = Math.max(...found.map((value, index) => Math.abs(value - (wanted[index] ?? Number.NaN))));
      return worst <= golden.tolerance.value ? [] : [`${sample.hour} h: off by ${worst}`];
    });
    expect(differing).toEqual([]);
  });
});
