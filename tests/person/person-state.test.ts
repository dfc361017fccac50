import { describe, expect, it } from 'vitest';
import { DEFAULT_TIME_FACTORS, startState, simulateAlertness, type Watchkeeper } from '../../lib/person/index.ts';
import { MS_PER_H, utcInterval } from '../../lib/time/index.ts';

const at = (hour: number): number => hour * MS_PER_H;
const sleep = (fromH: number, toH: number): ReturnType<typeof utcInterval> => utcInterval(at(fromH), at(toH));

const watchkeeper: Watchkeeper = {
  sleeps: [sleep(0, 6), sleep(24, 29), sleep(40, 41.5)],
  wantedSleepHPer24H: 6,
  usualSleepSolarH: 22,
  sleepEfficiencyRatio: 0.85,
  paceRatio: 1,
  bodyClockLagMin: 0,
  gloves: 'none',
  timeFactors: DEFAULT_TIME_FACTORS,
  leastSleepHPer24H: 4,
  bodyKg: 80,
};

describe('startState', () => {
  it('after the last sleep: S as the simulation has it, awake since that sleep ended', () => {
    const state = startState(watchkeeper, { epochMs: at(48), lon: 30 });
    const [wanted] = simulateAlertness(watchkeeper.sleeps, {
      atEpochMs: [at(48)],
      bodyClock: () => 0,
      sleepEfficiencyRatio: 0.85,
    });
    expect(state.s).toBe(wanted?.s);
    expect(state.unified).toEqual(wanted?.unified);
    expect(state.awakeSinceEpochMs).toBe(at(41.5));
    expect(state.lastSleepMin).toBe(90);
    expect(state.wokeTodH).toBeCloseTo(41.5 - 24 + 2, 10);
    expect(state.isTrusted).toBe(true);
  });

  it('in the middle of a sleep: that sleep ends at the start', () => {
    const state = startState(watchkeeper, { epochMs: at(26), lon: 0 });
    expect(state.awakeSinceEpochMs).toBe(at(26));
    expect(state.lastSleepMin).toBe(120);
  });

  it('without any sleep before the start: our mistake', () => {
    expect(() => startState({ ...watchkeeper, sleeps: [] }, { epochMs: at(48), lon: 0 })).toThrow('usual nights');
  });

  it('one recorded sleep only: not to be trusted yet', () => {
    expect(startState({ ...watchkeeper, sleeps: [sleep(0, 6)] }, { epochMs: at(8), lon: 0 }).isTrusted).toBe(false);
  });
});
