/** The deck sheet over HTTP, as a browser without script asks for it. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PlanStanding } from '../../../server/deps.ts';
import { demoPicture, demoPlan } from '../../brief/sheet/demo-plan.ts';
import { view } from '../fixture-windows.ts';
import { testServer, type TestServer } from '../test-server.ts';

const ready: PlanStanding = { kind: 'ready', view: { ...view, plan: demoPlan, picture: demoPicture } };
let standing: PlanStanding = ready;
let server: TestServer;
beforeEach(async () => {
  standing = ready;
  server = await testServer(() => standing);
});
afterEach(() => server.close());

const get = (path: string): Promise<Response> => fetch(server.url + path);
const html = async (path: string): Promise<string> => (await get(path)).text();

describe('the deck sheet', () => {
  it('has its ten parts, a box for each step’s minutes and for each number seen', async () => {
    const page = await html('/jobs/drop/sheet');
    const titles = [...page.matchAll(/<h2>([^<]*)<\/h2>/g)].map(([, title]) => title);
    expect(titles.slice(0, 5)).toEqual([
      'Window',
      'Numbers: wind at the instrument (on deck)',
      'Go: every box ticked, or not at all',
      'The boat meanwhile',
      'Steps',
    ]);
    expect(titles).toHaveLength(12);
    // Where the tether goes, said again only where it changes.
    expect(page.match(/clip: [a-z ]+/g)).toEqual([
      'clip: fixed point in the cockpit',
      'clip: fixed point at the foot of the mast',
      'clip: fixed point below the boom',
    ]);
    expect(page).toContain('<strong>Ease the halyard, pull the luff down</strong>');
    expect(page).toContain('Plan 3');
  });

  it('is linked from the job and from the card of what is next', async () => {
    expect(await html('/jobs/drop')).toContain('<a href="/jobs/drop/sheet">Deck sheet</a>');
    expect(await html('/')).toMatch(/<a [^>]*href="\/jobs\/[a-z]+\/sheet"[^>]*>Deck sheet<\/a>/);
  });

  it('as plain text: a file named by the job', async () => {
    const answer = await get('/jobs/drop/sheet.txt');
    expect(answer.headers.get('Content-Disposition')).toBe('attachment; filename=sheet-drop.txt');
    expect(await answer.text()).toMatch(/^DECK SHEET: Drop and lash the mainsail\n/);
  });

  it('no such job: 404; no plan yet: 409, each with what to do', async () => {
    const [missing, near] = [await get('/jobs/drpo/sheet'), 'Did you mean “drop”?'];
    expect([missing.status, (await missing.text()).includes(near)]).toEqual([404, true]);
    standing = { kind: 'stopped' };
    const early = await get('/jobs/drop/sheet');
    expect([early.status, (await early.text()).includes('A deck sheet needs a plan')]).toEqual([409, true]);
  });
});
