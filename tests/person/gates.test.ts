import { describe, expect, it } from 'vitest';
import {
  gateFindings,
  gateFor,
  inertiaGateMin,
  priorSleepFindings,
  strictestGate,
  type GateState,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

/** Fit for anything: each test spoils one thing. */
const fit: GateState = {
  alertnessPoints: 9,
  todH: 10,
  awakeH: 3,
  lastSleepMin: 300,
  wokeTodH: 7,
  lapses: 3,
  slept24H: 6,
  slept48H: 13,
};
const heavy = gateFor({ effort: 'heavy', place: 'deck' });
const aloft = gateFor({ effort: 'light', place: 'aloft' });
const deck = gateFor({ effort: 'light', place: 'deck' });
const below = gateFor({ effort: 'light', place: 'below' });
const rules = (state: Partial<GateState>, gate = heavy): readonly string[] =>
  gateFindings({ ...fit, ...state }, gate).map((finding) => finding.rule);

describe('gateFindings', () => {
  it('a rested sailor at ten in the morning: nothing fails, anywhere', () => {
    for (const gate of [heavy, aloft, deck, below, gateFor({ effort: 'light', place: 'overside' })])
      expect(gateFindings(fit, gate)).toEqual([]);
  });

  it.each([
    ['heavy', heavy, 8.15],
    ['aloft', aloft, 8.15],
    ['deck', deck, 7],
    ['cockpit', gateFor({ effort: 'moderate', place: 'cockpit' }), 7],
    // KSS 8 on the model 5c line: (9.68 - 8) / 0.46.
    ['below', below, 3.6522],
  ] as const)('alertness just under the line, %s: fails by the amount', (_, gate, line) => {
    const [finding] = gateFindings({ ...fit, alertnessPoints: line - 0.1 }, gate);
    expect(finding?.rule).toBe('alertness');
    expect(finding?.required).toBeCloseTo(line, 3);
    expect(finding?.margin).toBeCloseTo(-0.1, 3);
    expect(gateFindings({ ...fit, alertnessPoints: line + 0.001 }, gate)).toEqual([]);
  });

  it('02:00 to 06:00 on the body clock: closed for heavy work, open for light work on deck', () => {
    expect(rules({ todH: 1.99 })).toEqual([]);
    expect(rules({ todH: 2 })).toEqual(['low-hours']);
    expect(rules({ todH: 5.99 })).toEqual(['low-hours']);
    expect(rules({ todH: 6 })).toEqual([]);
    expect(rules({ todH: 3 }, deck)).toEqual([]);
  });

  it('more than 16 h awake: closed for heavy work', () => {
    expect(rules({ awakeH: 16 })).toEqual([]);
    expect(rules({ awakeH: 16.01 })).toEqual(['awake']);
    expect(rules({ awakeH: 16.01, slept48H: 20 }, below)).toEqual([]);
  });

  it('just woken from five hours: heavy work after 45 min, aloft after 90', () => {
    expect(rules({ awakeH: 0.74 })).toEqual(['inertia']);
    expect(rules({ awakeH: 0.75 })).toEqual([]);
    expect(rules({ awakeH: 1.49 }, aloft)).toEqual(['inertia']);
    expect(rules({ awakeH: 1.5 }, aloft)).toEqual([]);
    expect(rules({ awakeH: 0 }, deck)).toEqual([]);
  });

  it('short of sleep: closes aloft and overside only', () => {
    expect(rules({ slept24H: 4, slept48H: 9 }, aloft)).toEqual(['sleep-24h', 'sleep-48h']);
    expect(rules({ slept24H: 4, slept48H: 9 })).toEqual([]);
  });

  it('a figure that is not a number: the gate stays closed', () => {
    expect(rules({ alertnessPoints: Number.NaN, awakeH: Number.NaN })).toEqual(['alertness', 'awake', 'inertia']);
  });
});

describe('priorSleepFindings (Dawson & McCulloch 2005, second hand)', () => {
  const { cases } = golden('prior-sleep') as {
    cases: readonly { sleep24: number; sleep48: number; awake_end: number; expect: boolean[] }[];
  };

  it.each(cases)('$sleep24 h, $sleep48 h, awake $awake_end h: $expect', (given) => {
    const failing = priorSleepFindings({
      ...fit,
      slept24H: given.sleep24,
      slept48H: given.sleep48,
      awakeH: given.awake_end,
    }).map((finding) => finding.rule);
    expect(['sleep-24h', 'sleep-48h', 'awake-beyond-sleep'].map((rule) => !failing.includes(rule as never))).toEqual(
      given.expect,
    );
  });
});

describe('strictestGate', () => {
  it('a light step and a heavy one: the heavy one decides', () => {
    expect(strictestGate([deck, heavy])).toEqual(heavy);
  });

  it('no step at all: only the line below which nothing is planned', () => {
    expect(strictestGate([])).toEqual(below);
  });
});

describe('inertiaGateMin (engineering choice, no source)', () => {
  const { inertiaGateMin: wanted } = golden('defaults') as {
    inertiaGateMin: { nap_le_10: number; nap_le_30: number; nap_le_90: number; longer_or_sleep_ending_00_06: number };
  };

  it.each([
    [10, 12, wanted.nap_le_10],
    [11, 12, wanted.nap_le_30],
    [30, 12, wanted.nap_le_30],
    [31, 12, wanted.nap_le_90],
    [90, 12, wanted.nap_le_90],
    [91, 12, wanted.longer_or_sleep_ending_00_06],
    [20, 3, wanted.longer_or_sleep_ending_00_06],
    [20, 6, wanted.nap_le_30],
  ])('%i min of sleep that ends at %i h: %i min', (lastSleepMin, wokeTodH, min) => {
    expect(inertiaGateMin({ lastSleepMin, wokeTodH })).toBe(min);
  });
});
