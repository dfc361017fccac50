import { describe, expect, it } from 'vitest';
import { jobOf, line, readiness, statuses, tool } from './little-jobs.ts';

// Rules of ours.

const drill = (id: string, more: object = {}) => jobOf(id, [], { needsTools: ['drill'], ...more });
const codes = (found: ReturnType<typeof readiness>, id: string): unknown =>
  found.get(id)?.findings.map(({ code }) => code);

describe('tools', () => {
  it('a locker that lists tools, but not this one: not ready; whatever the capitals, when it does: ready', () => {
    expect(statuses(readiness([drill('a')], [tool('awl')]))).toEqual({ a: 'not' });
    expect(statuses(readiness([drill('a')], [tool('awl'), tool('Drill')]))).toEqual({ a: 'ready' });
  });

  it('listed with none on board: not ready', () => {
    const found = readiness([drill('a')], [tool('drill', { onBoardAmount: 0 })]);
    expect(found.get('a')?.findings).toMatchObject([{ code: 'tool-missing', isListed: true }]);
  });

  it('listed as material: it is there', () => {
    expect(statuses(readiness([drill('a')], [tool('awl'), line('drill', 1)]))).toEqual({ a: 'ready' });
  });

  it('a locker that lists no tools, or nothing: not known', () => {
    expect(statuses(readiness([drill('a')], [line('twine', 1)]))).toEqual({ a: 'unknown' });
    expect(statuses(readiness([drill('a')], []))).toEqual({ a: 'unknown' });
  });

  it('a reserve of a tool: does not matter, since it comes back', () => {
    expect(statuses(readiness([drill('a')], [tool('drill', { keepAmount: 1 })]))).toEqual({ a: 'ready' });
  });

  it('a tool the job holds: must be on board too', () => {
    expect(statuses(readiness([jobOf('a', [])], [tool('awl')], { a: { tools: ['clamp'] } }))).toEqual({ a: 'not' });
  });

  it('wanted by two jobs: each is told, more so when one holds it until its wait is over', () => {
    const jobs = [drill('a'), drill('b')];
    expect(codes(readiness(jobs, [tool('drill')]), 'a')).toEqual(['tool-shared']);
    const held = readiness(jobs, [tool('drill')], { b: { tools: ['drill'] } });
    expect(codes(held, 'a')).toEqual(['tool-held']);
    expect(held.get('b')?.findings).toMatchObject([{ code: 'tool-shared', isHeldHere: true }]);
  });

  it('a finished job: wants none', () => {
    expect(codes(readiness([drill('a'), drill('b')], [tool('drill')], { b: { isDone: true } }), 'a')).toEqual([]);
  });

  it('one battery for two jobs: to be charged between them; one for each: not', () => {
    const jobs = ['a', 'b'].map((id) => jobOf(id, [], { needsTools: ['drill battery'] }));
    const one = readiness(jobs, [tool('drill battery')]);
    expect(one.get('a')).toMatchObject({
      status: 'ready',
      findings: [{ code: 'charge-between', onBoardCount: 1, jobIds: ['b'] }],
    });
    expect(codes(readiness(jobs, [tool('drill battery', { onBoardAmount: 2 })]), 'a')).toEqual([]);
  });
});
