/** The invented plan of the pages, with a wait, sessions and names as a passage gives them. */
import type { ExportNames } from '../../../lib/brief/export/index.ts';
import type { Plan, PlanEntry } from '../../../lib/planner/index.ts';
import { plan as pagePlan } from '../../pages/fixture-plan.ts';

export const names: ExportNames = {
  shipTimeOffsetMin: 720,
  handlings: new Map([
    ['run-off', 'Run off before the wind'],
    ['hold-course', 'Hold the course'],
  ]),
  sailStates: new Map([['headsail-only', 'Headsail only']]),
  steps: new Map([['oil', new Map([['all', 'Brush, wash; oil']])]]),
  cautions: new Map([['oil', ['Oil on the deck is slippery: wipe it up at once.']]]),
};

const firstWork = pagePlan.entries.find(({ kind, jobId }) => kind === 'work' && jobId === 'oil');
if (firstWork === undefined) throw new Error('the fixture has lost its oiling');

const wait: PlanEntry = {
  ...firstWork,
  kind: 'wait',
  startUtc: firstWork.endUtc,
  endUtc: '2026-05-28T22:00Z',
  handling: null,
  place: null,
  deckWindKn: null,
};

export const plan: Plan = { ...pagePlan, planNumber: 3, entries: [...pagePlan.entries, wait] };

/** The plan with one name for everything that has one. */
export const planNamed = (name: string): Plan => ({
  ...plan,
  passageName: name,
  jobs: plan.jobs.map((job) => ({ ...job, name })),
});

/** What people, and others, write into a name. */
export const ODD_NAMES = [
  'Comma, semicolon; colon: backslash \\ and \\n as it is',
  'First line\nsecond line\r\nthird\rfourth',
  '"Quoted" and \'quoted\'',
  'Sew ]]> <b>&amp; & tie</b> <!-- no -->',
  '⛵️ 補修 🪡🧵 wantenspanner – Größe ½″',
  'bell\u0007 nul\u0000 escape\u001b[31m del\u007f next\u0085line',
  'half a character \ud83d here',
  '\uFFFE and \uFFFF',
  '=1+1',
  '+61 on the phone',
  '-1 reef',
  '@home',
  '\t=tab first',
  'é'.repeat(200),
  '🧵'.repeat(90),
  '',
  'BEGIN:VEVENT',
] as const;
