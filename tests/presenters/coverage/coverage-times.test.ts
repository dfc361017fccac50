import { describe, expect, it } from 'vitest';
import { coverageTimes, heldSpans, restOf } from '../../../server/presenters/coverage/coverage-times.ts';
import { atH, forecastOf, message, wind } from '../../forecast/sample-fields.ts';
import { covered, times } from './covered-way.ts';

const span = (fromH: number, toH: number) => ({ fromEpochMs: atH(fromH), toEpochMs: atH(toH) });
const instants = (...stepsH: readonly number[]) => stepsH.map((h) => ({ startEpochMs: atH(h), endEpochMs: atH(h) }));

describe('heldSpans', () => {
  // Instants 12 h apart are bridged, 13 h apart are not: the rule of lib/forecast/time-bracket.ts and its tests.
  it('instants: joined across half a day, cut beyond it', () => {
    expect(heldSpans({ kind: 'instant', steps: instants(0, 12, 25) })).toEqual([span(0, 12), span(25, 25)]);
  });

  it('intervals: each its own hours, a missing one is a gap', () => {
    const steps = [
      { startEpochMs: atH(0), endEpochMs: atH(3) },
      { startEpochMs: atH(3), endEpochMs: atH(6) },
      { startEpochMs: atH(9), endEpochMs: atH(12) },
    ];
    expect(heldSpans({ kind: 'interval', steps })).toEqual([span(0, 6), span(9, 12)]);
  });
});

describe('restOf', () => {
  it.each([
    [[], [span(0, 10)]],
    [[span(0, 10)], []],
    [[span(2, 4)], [span(0, 2), span(4, 10)]],
    [[span(-5, 3), span(8, 20)], [span(3, 8)]],
  ])('%#', (taken, rest) => {
    expect(restOf(taken, span(0, 10))).toEqual(rest);
  });
});

describe('coverageTimes', () => {
  const later = wind(6, 5, 0, { baseH: 6 });
  const messages = [
    ...[0, 6, 12].flatMap((stepH) => wind(stepH, 5, 0)),
    ...later,
    message({ kind: 'visibility', stepsH: [0], value: 9000 }),
    message({ kind: 'visibility', stepsH: [6], value: 9000 }),
  ];
  const data = covered({
    forecast: forecastOf(...messages),
    messages,
    from: { lat: -34.5, lon: 179 },
    to: { lat: -34.5, lon: 179.5 },
    hours: 24,
    planHours: 18,
  });
  const shown = coverageTimes({
    data,
    nowEpochMs: atH(2),
    missing: ['CAPE'],
    times,
    shipTimeOffsetMin: 0,
    fileName: (reference) => `the file ${reference}`,
  });
  const lineOf = (name: string) => shown.lines.find((line) => line.name.includes(name));

  it('two runs in one file: a line each, with its own base', () => {
    const files = shown.lines.filter(({ kind }) => kind === 'file');
    expect(files.map(({ name, baseEpochMs, steps }) => [name, baseEpochMs, steps])).toEqual([
      ['the file sample.grib2', atH(0), [atH(0), atH(6), atH(12)]],
      ['the file sample.grib2', atH(6), [atH(12)]],
    ]);
  });

  it('a quantity: hours of its steps, gaps before and after, and where she will be', () => {
    const line = lineOf('visibility');
    expect(line?.held).toEqual([span(0, 6)]);
    expect(line?.gaps.at(-1)).toEqual(span(6, 24));
    expect(line?.along).toEqual({ known: [span(0, 6)], silent: [span(6, 24)] });
    expect(line?.note).toBe('one run, every 6 h, run of Wed 00:00 UTC');
  });

  it('what no file holds: a gap from end to end', () => {
    expect(lineOf('CAPE')).toMatchObject({ kind: 'missing', held: [], gaps: [span(-2, 24)] });
  });

  it('now and the end of the plan are marked', () => {
    expect(shown.marks.map(({ text, atEpochMs }) => [text, atEpochMs])).toEqual([
      ['now 02:00', atH(2)],
      ['plan ends Wed 18:00', atH(18)],
    ]);
  });
});
