import { describe, expect, it } from 'vitest';
import { BURST_COUNT, keepRequestRate, PER_S_COUNT } from '../../server/access/request-rate.ts';

describe('keepRequestRate', () => {
  it('so many at once, then so many a second; what it says to wait is enough, and less is not', () => {
    let atMs = 0;
    const waitMsOf = keepRequestRate(() => atMs);
    const isLet = (): boolean => waitMsOf('a') === 0;
    expect(Array.from({ length: BURST_COUNT }, isLet).every(Boolean)).toBe(true);
    const waitMs = waitMsOf('a');
    expect(waitMs).toBeCloseTo(1000 / PER_S_COUNT);
    atMs += waitMs - 1;
    expect(isLet()).toBe(false);
    atMs += 1.001;
    expect(isLet()).toBe(true);
    expect(waitMsOf('b')).toBe(0);
  });

  it('over an hour: no more than the burst and the rate allow, and no fewer', () => {
    let atMs = 0;
    const waitMsOf = keepRequestRate(() => atMs);
    let count = 0;
    for (; atMs < 3_600_000; atMs += 20) if (waitMsOf('a') === 0) count += 1;
    expect(count).toBeLessThanOrEqual(BURST_COUNT + 3600 * PER_S_COUNT);
    expect(count).toBeGreaterThanOrEqual(BURST_COUNT + 3600 * PER_S_COUNT - 1);
  });

  it('ten thousand addresses: the one heard last is remembered, the memory does not grow with them', () => {
    const waitMsOf = keepRequestRate(() => 0);
    for (let n = 0; n < 10_000; n += 1) waitMsOf(`a${n}`);
    for (let n = 0; n < BURST_COUNT - 1; n += 1) expect(waitMsOf('a9999')).toBe(0);
    expect(waitMsOf('a9999')).toBeGreaterThan(0);
    // Forgotten: it begins anew.
    for (let n = 0; n < BURST_COUNT; n += 1) expect(waitMsOf('a0')).toBe(0);
  });
});
