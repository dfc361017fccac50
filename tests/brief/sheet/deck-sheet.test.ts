/** Deck sheets of the demo: what each of the ten parts says, and that nothing is said that is not known. */
import { describe, expect, it } from 'vitest';
import { instrumentWindKn } from '../../../lib/boat/index.ts';
import { deckSheet, type DeckSheet, deckSheetText } from '../../../lib/brief/index.ts';
import { demoPassage, demoPicture, demoPlan } from './demo-plan.ts';

const asked = (jobId: string) =>
  deckSheet({ plan: demoPlan, picture: demoPicture, passage: demoPassage, jobId, nowEpochMs: demoPicture.nowEpochMs });

/** Sun and moon are asked for each: every sheet is made once. */
const made = new Map<string, DeckSheet>();
function sheetOf(jobId: string): DeckSheet {
  const sheet = made.get(jobId) ?? valueOf(asked(jobId));
  made.set(jobId, sheet);
  return sheet;
}
function valueOf(sheet: ReturnType<typeof asked>): DeckSheet {
  if (!sheet.ok) throw new Error(JSON.stringify(sheet.problems));
  return sheet.value;
}
const jobIds = demoPlan.jobs.map(({ jobId }) => jobId);

describe('deckSheet', () => {
  it.each(jobIds)('%s: every stop, abort and hurt line is “If X, then do Y.”', (jobId) => {
    const { stop, abort, hurt } = sheetOf(jobId);
    expect([...stop, ...abort, ...hurt].filter((line) => !/^If .+, then .+\.$/.test(line))).toEqual([]);
    expect(abort).toHaveLength(3);
  });

  it('the drop: the strictest step binds, deck and instrument side by side', () => {
    const { numbers, stop } = sheetOf('drop');
    // Steps of the demo’s drop-main stand 26 and 25 kn; running off ends at 30 kn of true wind, less than 25 on deck.
    const numberOf = (row: string) => numbers.find(({ quantity }) => quantity === row);
    expect(numberOf('Wind (deck), kn')).toMatchObject({ expected: '19 (13)', startAt: '19 (13)', stopAt: '24 (17)' });
    expect(numberOf('Sea; period')).toMatchObject({ expected: '3.2 m, 9 s', startAt: '3.2 m', stopAt: '4.0 m' });
    expect(numberOf('Visibility')).toMatchObject({ expected: '8 nm', startAt: '1 nm', stopAt: 'below 1' });
    expect(stop[0]).toBe('If the mean wind is 24 kn (17 on deck), then stop.');
    const check = demoPlan.jobs.find(({ jobId }) => jobId === 'drop')?.goCheck[0];
    expect(check).toMatch(/at most 19 kn \(expected 19\).*Stop at 24, gusts 41\.$/);
  });

  it('where the start check will probably say wait, that stands first, with both numbers and what to do', () => {
    expect(sheetOf('oil').startWarning).toBe(
      'The start check will probably say wait (it passes in 40 of 100): sea 3.3 m expected, start at 3.2 m or less. Likely to pass from Thu 17:00. Look every half hour, start when it passes, Sat 22:00 at the latest; else take the second window, from Sun 02:50.',
    );
    expect(sheetOf('inspect').startWarning).toBeNull();
    expect(sheetOf('masthead').startWarning).toBeNull();
  });

  it('sea room: the run in the wind that one of ten goes beyond, longer than in the median wind', () => {
    const lines = sheetOf('drop').go.filter((line) => line.startsWith('Sea room'));
    expect(lines).toEqual([expect.stringContaining('in a wind that 1 of 10 goes beyond')]);
    const [room = 0] = (/\d+/.exec(lines[0] ?? '') ?? []).map(Number);
    const way = sheetOf('drop').boat.find(({ term }) => term === 'Way')?.text ?? '';
    // 190 min of work and contingency at the way made in the median wind.
    expect(room).toBeGreaterThan(Number(/^[\d.]+/.exec(way)?.[0] ?? '0') * (190 / 60));
  });

  it('the drop: steps fill the planned hours, safe points stand at their ends', () => {
    const { steps } = sheetOf('drop');
    const whole = steps.reduce((sum, row) => sum + (row.kind === 'step' ? row.lengthMin : 0), 0);
    expect(Math.abs(whole - 140)).toBeLessThanOrEqual(3);
    expect(steps.flatMap((row) => (row.kind === 'safe-point' ? [row.clock] : []))).toEqual(['Thu 15:30', 'Thu 16:20']);
    expect(steps[0]).toMatchObject({ clock: 'Thu 14:00', place: 'cockpit', stop: 'anywhere' });
  });

  it('the seam: five sessions, each with its end, nothing of another job between', () => {
    const { steps } = sheetOf('stitch');
    expect(steps.filter(({ kind }) => kind === 'safe-point')).toHaveLength(5);
    expect(new Set(steps.flatMap((row) => (row.kind === 'step' ? [row.name] : []))).size).toBe(3);
  });

  it('the batten: its cure as a wait with an end; what it takes, where it lies, what is left', () => {
    const { steps, parts, tools } = sheetOf('bench');
    expect(steps.at(-1)).toEqual({ kind: 'wait', clock: 'Fri 11:10', text: 'Cures until' });
    expect(parts).toContainEqual({
      takes: 'epoxy, 30 ml',
      place: 'glue box, warm by the engine',
      left: '120 ml left, never below 40 ml',
    });
    expect(tools[0]).toContain('tool box: hacksaw');
  });

  it('what another job makes is said to be made there', () => {
    expect(sheetOf('swap').parts[0]).toEqual({
      takes: 'batten, 1 piece',
      place: 'made by “Make the new batten”',
      left: '',
    });
  });

  it('not planned: says so first, has no hours and expects no weather', () => {
    const sheet = sheetOf('masthead');
    expect(sheet.standing).toMatch(/^Not in the plan: do not start/);
    expect(sheet.window).toEqual([]);
    expect(sheet.numbers.map(({ expected }) => expected).filter((text) => text !== '')).toEqual([]);
    expect(sheet.steps[0]).toMatchObject({ clock: '+0:00' });
    // Common practice, no source: aloft the shore acts after 60 min of silence, elsewhere after two hours.
    expect(sheet.talk.join(' ')).toContain('1 h after');
  });

  it('a job nobody knows: the problem names those there are', () => {
    const sheet = asked('drpo');
    expect(sheet.ok ? null : sheet.problems[0]).toMatchObject({
      code: 'sheet.no-such-job',
      remedy: 'Did you mean "drop"?',
    });
  });
});

describe('deckSheetText', () => {
  it.each(jobIds)('%s: no line is wider than 80 columns, every part has its head', (jobId) => {
    const lines = deckSheetText(sheetOf(jobId)).split('\n');
    expect(lines.filter((line) => line.length > 80)).toEqual([]);
    for (const head of ['NUMBERS', 'GO:', 'STEPS', 'STOP', 'TELL', 'AFTER', 'CAUTIONS'])
      expect(
        lines.some((line) => line.startsWith(head)),
        head,
      ).toBe(true);
  });
});

describe('instrumentWindKn', () => {
  it('a boat that lies still: the wind of 2 m brought to 21 m by the power law', () => {
    const [some] = demoPassage.boat.handlings;
    if (some === undefined) throw new Error('no handling');
    const still = { ...some, speedRatio: 0, speedLeastKn: 0, speedMostKn: 0, driftRatio: 0 };
    const shownKn = instrumentWindKn(demoPassage.boat, still, {
      deckWindKn: 10,
      deckHeightM: 2,
      sailStateId: 'headsail-only',
    });
    // Hsu, Meindl and Gilhousen (1994), J. Appl. Meteorol. 33: exponent 0.11 over the sea; (21/2)^0.11 = 1.2952.
    expect(Math.abs(shownKn - 12.952)).toBeLessThan(0.005);
  });
});
