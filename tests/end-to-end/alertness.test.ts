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
  readonly KSS_fips: number;
  readonly KSS_5c: number;
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

interface UnifiedGolden {
  readonly cases: readonly {
    readonly name: string;
    readonly samples: readonly { readonly hour: number; readonly lapses_S_plus_kappaC: number }[];
  }[];
}

const read = (name: string): unknown =>
  JSON.parse(readFileSync(resolve(import.meta.dirname, `../golden/person/${name}.json`), 'utf8'));

// FIPS R package 0.2.1; source, licence and units in the file.
const golden = read('three-process-scenarios') as Golden;
const unified = read('unified-performance') as UnifiedGolden;

/** Ingre et al. 2014, model 5c: the line nine people in ten stay below (at second hand). */
const P90_KSS = 1.07;

type Row = Readonly<
  Record<'S' | 'C' | 'U' | 'W' | 'alertness' | 'kssFips' | 'kss5c' | 'kss5cP90' | 'lapses', number> & {
    timeUtc: string;
  }
>;

const MIDNIGHT_EPOCH_MS = Date.UTC(2026, 0, 1);
/** Hours are thirds and twelfths rounded to six decimals: whole minutes. */
const utcAt = (hour: number): string =>
  new Date(MIDNIGHT_EPOCH_MS + Math.round(hour * 60) * MS_PER_MIN).toISOString().replace(':00.000Z', 'Z');

/** The file also has a variant of one case with another formula, of S alone; `tests/person` has it. */
const cases = golden.cases.filter(({ name }) => !name.endsWith('continuous'));

describe.concurrent('slatch alertness', () => {
  it.each(cases)('$name: every column of FIPS 0.2.1', async ({ name, startS, sleepsHour, samples }) => {
    const sleeps = sleepsHour.map(([from, to]) => `${utcAt(from)}/${utcAt(to)}`).join(',');
    const [from, to] = [samples[0]?.hour ?? 0, samples.at(-1)?.hour ?? 0].map(utcAt);
    const model = ['--s0', String(startS), '--as-published', '--json'];
    const span = ['--from', from ?? '', '--to', to ?? '', '--every-min', '5'];
    const { code, out, err } = await slatch('alertness', '--sleep', sleeps, ...model, ...span);
    expect(code, err).toBe(0);
    const { rows } = JSON.parse(out) as { rows: readonly Row[] };
    const byUtc = new Map(rows.map((row) => [row.timeUtc, row]));
    const lapsesAt = new Map(
      unified.cases
        .find((other) => other.name === name)
        ?.samples.map((sample) => [sample.hour, sample.lapses_S_plus_kappaC]),
    );
    expect(lapsesAt.size).toBeGreaterThan(8);
    const differing = samples.flatMap((sample) => {
      const row = byUtc.get(utcAt(sample.hour));
      if (row === undefined) return [`no row at ${sample.hour} h`];
      const pairs = [
        [row.S, sample.S],
        [row.C, sample.C],
        [row.U, sample.U],
        [row.W, sample.W],
        [row.alertness, sample.alertness_SCU],
        [row.kssFips, sample.KSS_fips],
        [row.kss5c, sample.KSS_5c],
        [row.kss5cP90, sample.KSS_5c + P90_KSS],
        [row.lapses, lapsesAt.get(sample.hour) ?? row.lapses],
      ] as const;
      const worst = Math.max(...pairs.map(([found, wanted]) => Math.abs(found - wanted)));
      return worst <= golden.tolerance.value ? [] : [`${sample.hour} h: off by ${worst}`];
    });
    expect(differing).toEqual([]);
  });
});
