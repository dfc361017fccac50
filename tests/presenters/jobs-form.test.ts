/** What the form of a job shows is what the library and the passage have, and what is entered is what is kept. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { differencesFrom, JOB_LIBRARY, type JobFile, libraryJob, makeJob } from '../../lib/jobs/index.ts';
import {
  fileWithForm,
  givenBack,
  mergedForm,
  moveSteps,
  newJob,
  ownFigures,
  placedProblems,
  readEntry,
  readJobForm,
  untouchedForm,
} from '../../server/job-forms/index.ts';
import { BLANK_ENTRY, formGroups } from '../../server/presenters/job-form.ts';
import { documentWith, editedIn, entryIn, sentWith } from './jobs-document.ts';

const document = documentWith([
  { id: 'drop', from: 'drop-main' },
  { id: 'sew', from: 'stitch-tear', after: ['drop'], lengthM: 2, limits: { daylight: 'required' } },
  { id: 'swap', from: 'batten-swap', after: ['drop'] },
  { id: 'oil', from: 'fastener-oil' },
]);

/** The entry kept after a form with these texts changed; or the problems. */
function kept(jobId: string, changed: Readonly<Record<string, string | readonly string[]>>): JobFile | undefined {
  const edited = editedIn(document, jobId);
  const file = fileWithForm(document.file, sentWith(edited, changed), edited);
  if (!file.ok) throw new Error(JSON.stringify(file.problems));
  return entryIn(file.value.jobs, jobId);
}

function refused(jobId: string, changed: Readonly<Record<string, string>>): ReturnType<typeof placedProblems> {
  const edited = editedIn(document, jobId);
  const sent = sentWith(edited, changed);
  const file = fileWithForm(document.file, sent, edited);
  return file.ok ? [] : placedProblems(file.problems, sent, edited);
}

describe('a form sent as it was shown', () => {
  it.each(JOB_LIBRARY.map(({ id }) => id))('library job %s: nothing in its entry is changed', (id) => {
    const entry = { id: 'it', from: id, priority: 7 };
    const with1 = documentWith([entry]);
    const edited = editedIn(with1, 'it');
    const texts = Object.fromEntries(
      formGroups(untouchedForm(edited).base).flatMap(({ fields, shown }) =>
        fields.map(({ name, kind }, index) => [
          name,
          kind === 'choices' ? (shown[index] ?? '').split('\n') : (shown[index] ?? ''),
        ]),
      ),
    );
    const file = fileWithForm(with1.file, sentWith(edited, texts), edited);
    expect(file.ok && file.value.jobs).toEqual([entry]);
  });
});

describe('what is entered', () => {
  it('minutes of a step: beside the steps, the others untouched', () => {
    expect(kept('drop', { 's.lower.work.likelyMin': '11' })?.minutes).toEqual({
      lower: { ...libraryMinutes('drop-main', 'lower'), likelyMin: 11 },
    });
  });

  it('a decimal comma: the number that is meant', () => {
    expect(kept('sew', { lengthM: '1,5' })?.lengthM).toBe(1.5);
  });

  it('a limit of one step: that step, and all others as the library has them', () => {
    const steps = kept('swap', { 's.insert.limits.deckWindKn.noGo': '15' })?.steps;
    expect(steps?.map(({ id, ...own }) => [id, own])).toEqual(
      libraryJob('batten-swap')?.steps.map(({ id, limits }) => [
        id,
        id === 'insert' ? { limits: { deckWindKn: { ...limits.deckWindKn, noGo: 15 } } } : {},
      ]),
    );
  });

  it('the word none in a limit: no such limit, which is not the same as nothing said', () => {
    expect(kept('sew', { 'limits.deckGustNoGoKn': 'none' })?.limits).toEqual({
      daylight: 'required',
      deckGustNoGoKn: null,
    });
    expect(kept('sew', { 'limits.daylight': '' })?.limits).toBeUndefined();
  });

  it('an amount: the minutes of its own that stood in its place go', () => {
    const own = documentWith([
      { id: 'swap', from: 'batten-swap', minutes: { insert: { leastMin: 1, likelyMin: 2, mostMin: 3 } } },
    ]);
    const edited = editedIn(own, 'swap');
    const file = fileWithForm(own.file, sentWith(edited, { 's.insert.amount': '3' }), edited);
    expect(file.ok && file.value.jobs).toEqual([{ id: 'swap', from: 'batten-swap', amounts: { insert: 3 } }]);
  });

  it('a start on the ship’s clock, twelve hours ahead: kept in UTC', () => {
    expect(kept('oil', { startUtc: '2026-05-28T10:30' })?.startUtc).toBe('2026-05-27T22:30Z');
  });

  it('handlings: the preferred one first, then the others in the order they had', () => {
    const [first = '', ...others] = libraryJob('drop-main')?.handlings ?? [];
    const last = others.at(-1) ?? '';
    expect(kept('drop', { 'handlings.first': last, handlings: ['', first, ...others] })?.handlings).toEqual([
      last,
      ...others.slice(0, -1),
      first,
    ]);
  });

  it('nothing ticked any more: an empty list, not the old one', () => {
    expect(kept('swap', { after: [''] })?.after).toEqual([]);
  });

  it('set back to what the library says: nothing is said', () => {
    const name = libraryJob('fastener-oil')?.name ?? '';
    expect(kept('oil', { name: 'Mine' })?.name).toBe('Mine');
    const own = documentWith([{ id: 'oil', from: 'fastener-oil', name: 'Mine' }]);
    const edited = editedIn(own, 'oil');
    const file = fileWithForm(own.file, sentWith(edited, { name }), edited);
    expect(file.ok && file.value.jobs).toEqual([{ id: 'oil', from: 'fastener-oil' }]);
  });

  it('a text of several lines: one entry a line, empty lines left out', () => {
    expect(kept('oil', { cautions: ' One \r\n\r\nTwo' })?.cautions).toEqual(['One', 'Two']);
  });

  it('hours of a wait: beside the steps; another kind: with its step', () => {
    expect(kept('oil', { 's.oil.wait.likelyH': '20' })?.waits).toEqual({ oil: { likelyH: 20 } });
    const dried = kept('oil', { 's.oil.wait.kind': 'dry' });
    expect([dried?.waits, dried?.steps?.[0]?.waitAfter?.kind]).toEqual([undefined, 'dry']);
    expect(kept('oil', { 's.oil.wait.kind': '' })?.steps?.[0]?.waitAfter).toBeNull();
  });
});

const libraryMinutes = (from: string, stepId: string): object | undefined =>
  libraryJob(from)?.steps.find(({ id }) => id === stepId)?.work;

describe('what cannot be kept', () => {
  it.each([
    ['drop', { 's.lower.work.likelyMin': 'soon' }, 's.lower.work.likelyMin', /"soon" does not fit/],
    ['drop', { 's.lower.work.likelyMin': '9999' }, 's.lower.work.likelyMin', /9999 does not fit/],
    ['drop', { 's.lower.work.leastMin': '500' }, 's.lower.work.leastMin', /do not fit together/],
    ['drop', { 'limits.deckWindKn.noGo': '20' }, 'limits.deckWindKn.ideal', /missing/],
    ['sew', { rows: '0' }, 'rows', /0 does not fit/],
    ['swap', { 's.insert.materials.0.amount': '-1' }, 's.insert.materials.0.amount', /-1 does not fit/],
  ])('%s, %o: told at its input', (jobId, changed, input, what) => {
    const problems = refused(jobId, changed);
    expect(problems[0]?.input).toBe(input);
    expect(problems[0]?.problem.what).toMatch(what);
  });
});

describe('steps', () => {
  const edited = editedIn(document, 'drop');
  const ids = libraryJob('drop-main')?.steps.map(({ id }) => id) ?? [];
  const [first = '', second = ''] = ids;
  const saved = (form: ReturnType<typeof moveSteps>): JobFile | undefined => {
    const file = fileWithForm(document.file, form, edited);
    if (!file.ok) throw new Error(JSON.stringify(file.problems));
    return entryIn(file.value.jobs, 'drop');
  };

  it('moved down and up again: nothing is said of them', () => {
    const down = moveSteps(untouchedForm(edited), { kind: 'down', stepId: first }, edited.around);
    expect(saved(down)?.steps?.map(({ id }) => id)).toEqual([second, first, ...ids.slice(2)]);
    expect(saved(moveSteps(down, { kind: 'up', stepId: first }, edited.around))).toEqual({
      id: 'drop',
      from: 'drop-main',
    });
  });

  it('what was typed before is still there after a move', () => {
    const typed = sentWith(edited, { name: 'Down with it', [`s.${second}.clipTo`]: 'here' });
    const entry = saved(moveSteps(typed, { kind: 'down', stepId: first }, edited.around));
    expect([entry?.name, entry?.steps?.[0]]).toEqual(['Down with it', { id: second, clipTo: 'here' }]);
  });

  it('split: two halves of the minutes, what it takes with the first, what comes after it with the second', () => {
    const before = libraryJob('drop-main')?.steps.find(({ id }) => id === 'lash');
    const entry = saved(moveSteps(untouchedForm(edited), { kind: 'split', stepId: 'lash' }, edited.around));
    const made = entry === undefined ? undefined : makeJob(entry, 'drop');
    const halves = made?.ok === true ? made.value.steps.slice(-2) : [];
    expect(
      halves.map(({ id, work, materials, safePointAfter }) => ({
        id,
        likelyMin: work.likelyMin,
        materials,
        safePointAfter,
      })),
    ).toEqual([
      { id: 'lash', likelyMin: (before?.work.likelyMin ?? 0) / 2, materials: before?.materials, safePointAfter: false },
      {
        id: 'lash-2',
        likelyMin: (before?.work.likelyMin ?? 0) / 2,
        materials: [],
        safePointAfter: before?.safePointAfter,
      },
    ]);
    expect(halves.map(({ limits }) => limits)).toEqual([before?.limits, before?.limits]);
  });

  it('removed: what the entry said of it goes too', () => {
    const own = documentWith([
      {
        id: 'drop',
        from: 'drop-main',
        doneSteps: [first],
        minutes: { [first]: { leastMin: 1, likelyMin: 2, mostMin: 3 } },
      },
    ]);
    const of = editedIn(own, 'drop');
    const file = fileWithForm(own.file, moveSteps(untouchedForm(of), { kind: 'remove', stepId: first }, of.around), of);
    expect(file.ok && file.value.jobs).toEqual([
      { id: 'drop', from: 'drop-main', steps: ids.slice(1).map((id) => ({ id })) },
    ]);
  });

  it('a new step with nothing entered: refused for name, place, minutes, wind and sea', () => {
    const form = moveSteps(untouchedForm(edited), { kind: 'add' }, edited.around);
    const file = fileWithForm(document.file, form, edited);
    const inputs = file.ok ? [] : placedProblems(file.problems, form, edited).map(({ input }) => input);
    expect(inputs).toEqual([
      's.step-2.limits.deckWindKn.ideal',
      's.step-2.limits.seaHeightM.ideal',
      's.step-2.name',
      's.step-2.place',
      's.step-2.work.leastMin',
    ]);
  });
});

describe('a new job', () => {
  const blank = newJob(document, BLANK_ENTRY);

  it('begins with one empty step and no entry', () => {
    expect(untouchedForm(blank).base.steps.map(({ slot }) => slot)).toEqual([{ id: 'step-2', of: '' }]);
  });

  it('filled in: kept under an id made of its name', () => {
    const sent = sentWith(blank, {
      step: 'step-2',
      'of.step-2': '',
      name: 'Dry the bilge',
      's.step-2.name': 'Pump and wipe',
      's.step-2.place': 'below',
      's.step-2.work.leastMin': '5',
      's.step-2.work.likelyMin': '10',
      's.step-2.work.mostMin': '20',
      's.step-2.limits.deckWindKn.noGo': 'none',
      's.step-2.limits.seaHeightM.ideal': '2',
      's.step-2.limits.seaHeightM.caution': '3',
      's.step-2.limits.seaHeightM.noGo': '4',
    });
    const file = fileWithForm(document.file, sent, blank);
    const entry = file.ok ? entryIn(file.value.jobs, 'dry-the-bilge') : undefined;
    expect(entry?.steps).toEqual([
      {
        id: 'step-2',
        limits: { deckWindKn: null, seaHeightM: { ideal: 2, caution: 3, noGo: 4 } },
        name: 'Pump and wipe',
        place: 'below',
        work: { leastMin: 5, likelyMin: 10, mostMin: 20 },
      },
    ]);
  });
});

describe('saved meanwhile by someone else', () => {
  it('what was entered stays, what was not touched is theirs, and where both changed it both are told', () => {
    const edited = editedIn(document, 'sew');
    const sent = sentWith(edited, { lengthM: '3', 's.sew.work.mostMin': '700' });
    const theirs = { ...edited.entry, lengthM: 4, name: 'Theirs' };
    const { form, keptNow, lost } = mergedForm(sent, theirs, edited.around);
    expect([form.values.get('lengthM'), form.values.get('name'), form.values.get('s.sew.work.mostMin')]).toEqual([
      '3',
      'Theirs',
      '700',
    ]);
    expect(keptNow.get('lengthM')).toBe('4');
    expect(lost).toEqual([]);
  });

  it('what was entered for a step that is gone is told', () => {
    const edited = editedIn(document, 'sew');
    const sent = sentWith(edited, { 's.fasten-off.clipTo': 'there' });
    const theirs = { ...edited.entry, steps: [{ id: 'lay-out' }, { id: 'sew' }] };
    const { form, lost } = mergedForm(sent, theirs, edited.around);
    expect(form.base.steps.map(({ slot }) => slot.id)).toEqual(['lay-out', 'sew']);
    expect(lost).toEqual(['Tether clipped to (step fasten-off): there']);
  });
});

describe('figures of one’s own', () => {
  const changes: readonly Readonly<Record<string, string>>[] = [
    { name: 'Mine' },
    { 'limits.daylight': 'required' },
    { 's.lower.work.likelyMin': '11' },
    { 's.settle.limits.rain': 'none' },
    { 's.flake.clipTo': 'here' },
    { 'session.longestMin': '45' },
    { 's.lash.materials.0.amount': '9' },
    { turnBack: 'Leave it.' },
  ];

  it('any of them, given back one by one: the library’s job again, by the library’s own account', () => {
    // The oracle is `differencesFrom`, which compares the two jobs and knows nothing of entries.
    fc.assert(
      fc.property(fc.subarray([...changes], { minLength: 1 }), fc.boolean(), (chosen, isSplit) => {
        const edited = editedIn(document, 'drop');
        const typed = sentWith(edited, Object.fromEntries(chosen.flatMap((one) => Object.entries(one))));
        const form = isSplit ? moveSteps(typed, { kind: 'split', stepId: 'prepare' }, edited.around) : typed;
        const file = fileWithForm(document.file, form, edited);
        let entry = file.ok ? entryIn(file.value.jobs, 'drop') : undefined;
        for (let count = 0; count < 40 && entry !== undefined; count++) {
          const [figure] = ownFigures(entry, jobFrom(entry));
          if (figure === undefined) break;
          const read = readEntry(givenBack(entry, figure.place), 'passage', 0);
          entry = read.ok ? read.value : undefined;
        }
        const library = libraryJob('drop-main');
        expect(entry === undefined || library === null ? null : differencesFrom(library, jobFrom(entry))).toEqual([]);
        expect(entry).toEqual({ id: 'drop', from: 'drop-main' });
      }),
      { seed: 6, numRuns: 25 },
    );
  });

  it('all at once: as the library has it; what the passage says of it stays', () => {
    const entry: JobFile = {
      id: 'sew',
      from: 'stitch-tear',
      priority: 9,
      after: ['drop'],
      lengthM: 2,
      limits: { daylight: 'required' },
      steps: [{ id: 'sew', clipTo: 'here' }],
    };
    expect(givenBack(entry, null)).toEqual({ id: 'sew', from: 'stitch-tear', priority: 9, after: ['drop'] });
  });

  it('a figure that is written but the same is not told', () => {
    const entry: JobFile = {
      id: 'sew',
      from: 'stitch-tear',
      rows: 1,
      turnBack: libraryJob('stitch-tear')?.turnBack ?? null,
    };
    expect(ownFigures(entry, jobFrom(entry))).toEqual([]);
  });
});

function jobFrom(entry: JobFile) {
  const made = makeJob(entry, entry.id);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

describe('a form that was tampered with', () => {
  it('any texts and steps: read without a throw, and refused or kept', () => {
    const edited = editedIn(document, 'swap');
    const name = fc.constantFrom(
      'step',
      'of.x',
      'base',
      'name',
      'lengthM',
      'after',
      's.insert.work.likelyMin',
      's.x.name',
      'do',
    );
    const fields = fc.dictionary(
      name,
      fc.array(fc.oneof(fc.string(), fc.constantFrom('open', 'insert', '{}', 'x', '__proto__')), { maxLength: 3 }),
    );
    fc.assert(
      fc.property(fields, (given) => {
        const all = (key: string): readonly string[] => given[key] ?? [];
        const sent = readJobForm(
          { all, text: (key) => all(key)[0] ?? '', has: (key) => Object.hasOwn(given, key) },
          edited.entry,
          edited.around,
        );
        const file = fileWithForm(document.file, sent, edited);
        expect(file.ok || file.problems.length > 0).toBe(true);
      }),
      { seed: 9, numRuns: 200 },
    );
  });
});
