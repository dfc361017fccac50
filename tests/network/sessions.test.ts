import { describe, expect, it } from 'vitest';
import { keepSessions, MOST_AGE_MS, MOST_IDLE_MS, MOST_SESSIONS_COUNT } from '../../server/access/sessions.ts';

const clock = (): { ms: number } => ({ ms: 1000 });

describe('sessions', () => {
  it('an id: 43 letters of 6 bits, never the same, known only when made here', () => {
    const sessions = keepSessions(() => 0);
    const ids = Array.from({ length: 20 }, sessions.begin);
    expect(new Set(ids).size).toBe(20);
    for (const id of ids) expect(id).toMatch(/^[\w-]{43}$/);
    expect(ids.every(sessions.isOpen)).toBe(true);
    expect(sessions.isOpen('A'.repeat(43))).toBe(false);
    expect(sessions.isOpen('')).toBe(false);
    expect(sessions.isOpen('__proto__')).toBe(false);
  });

  it('ended: over, the others are not', () => {
    const sessions = keepSessions(() => 0);
    const [one, other] = [sessions.begin(), sessions.begin()];
    sessions.end(one);
    sessions.end('never begun');
    expect([sessions.isOpen(one), sessions.isOpen(other)]).toEqual([false, true]);
  });

  it('unused for a day: over; used each day: over after a week', () => {
    const now = clock();
    const sessions = keepSessions(() => now.ms);
    const [idle, used] = [sessions.begin(), sessions.begin()];
    now.ms += MOST_IDLE_MS;
    expect(sessions.isOpen(used)).toBe(true);
    now.ms += 1;
    expect([sessions.isOpen(idle), sessions.isOpen(used)]).toEqual([false, true]);
    for (let day = 2; day <= 7; day += 1) {
      expect(sessions.isOpen(used)).toBe(true);
      now.ms = 1000 + day * MOST_IDLE_MS;
    }
    expect([now.ms - 1000, sessions.isOpen(used)]).toEqual([MOST_AGE_MS, true]);
    now.ms += 1;
    expect(sessions.isOpen(used)).toBe(false);
    now.ms -= 1;
    expect(sessions.isOpen(used)).toBe(false);
  });

  it('one more than are kept: the one unused longest goes', () => {
    const now = clock();
    const sessions = keepSessions(() => now.ms);
    const ids = Array.from({ length: MOST_SESSIONS_COUNT }, sessions.begin);
    now.ms += 1;
    expect(sessions.isOpen(ids[0] ?? '')).toBe(true);
    const more = sessions.begin();
    expect([0, 1, 2].map((index) => sessions.isOpen(ids[index] ?? ''))).toEqual([true, false, true]);
    expect(sessions.isOpen(more)).toBe(true);
  });
});
