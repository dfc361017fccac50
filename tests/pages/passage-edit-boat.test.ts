/** The boat over HTTP: figures, speed tables, handlings. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type EditForms, editForms } from './passage-edit-forms.ts';
import { textOf } from './sent-forms.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
let forms: EditForms;
beforeEach(async () => {
  server = await testServer();
  forms = editForms(server);
});
afterEach(() => server.close());

const BOAT = '/passage/boat';
const boatNow = async () => (await forms.file()).boat;
const wrongInputs = (page: string): readonly string[] =>
  [...page.matchAll(/<(?:input|select)[^>]*aria-invalid="true"[^>]*>/g)].map(
    ([tag]) => /name="([^"]*)"/.exec(tag)?.[1] ?? '',
  );

describe('the boat', () => {
  it('the demo: own figures plain, the rest marked as defaults', async () => {
    const page = textOf(await forms.html(BOAT));
    expect(page).toMatch(/Wind instrument above the water 21 m Change/);
    expect(page).toMatch(/Bare poles estimated from the sail area default/);
    expect(page).toMatch(/Heave to default 20 \/ 35 \/ 45 kn 3 \/ 5 \/ 7 m/);
  });

  it('instrument height changed, then left to its default', async () => {
    await forms.send(`${BOAT}/figures`, { instrumentHeightM: '18,5' });
    expect((await boatNow()).instrumentHeightM).toBe(18.5);
    await forms.send(`${BOAT}/figures`, { instrumentHeightM: '' });
    expect((await boatNow()).instrumentHeightM).toBeUndefined();
    expect(textOf(await forms.html(BOAT))).toMatch(/Wind instrument above the water 15 m default/);
  });

  it('an instrument in the sea: refused at its field', async () => {
    const answer = await forms.send(`${BOAT}/figures`, { instrumentHeightM: '-2' });
    expect([answer.status, wrongInputs(await answer.text())]).toEqual([422, ['instrumentHeightM']]);
  });
});

describe('a speed table', () => {
  const PATH = `${BOAT}/speeds/bare-poles`;
  const TABLE = 'twa_deg;tws_kn;boat_speed_kn\r\n90;10;5\r\n90;20;6.5\r\n150;10;4.5\r\n';

  it('shown as it is, and sent back: nothing is changed', async () => {
    const page = await forms.html(`${BOAT}/speeds/full-main`);
    const table = /<textarea[^>]*>([^<]*)</.exec(page)?.[1] ?? '';
    expect(table).toMatch(/^twa_deg,tws_kn,boat_speed_kn\n40,4,2\.4\n/);
    const look = await forms.post(`${BOAT}/speeds/full-main`, { table, do: 'look' });
    expect(textOf(await look.text())).toContain('The table changes nothing.');
    await forms.post(`${BOAT}/speeds/full-main`, { table, do: 'save' });
    expect(await forms.version()).toBe('1.1');
  });

  it('looked at: what changes and the whole grid, nothing saved; then taken over, and out again', async () => {
    const before = (await boatNow()).speedTables;
    const look = await forms.post(PATH, { table: TABLE, do: 'look' });
    const page = textOf(await look.text());
    expect(look.status).toBe(200);
    expect(page).toMatch(/3 rows come in: 90° at 10 kn: 5 kn; 90° at 20 kn: 6\.5 kn; 150° at 10 kn: 4\.5 kn\./);
    expect(page).toMatch(/Angle 10 kn 20 kn 90° 5 6\.5 150° 4\.5/);
    expect((await boatNow()).speedTables).toEqual(before);
    expect((await forms.post(PATH, { table: TABLE, do: 'save' })).status).toBe(303);
    expect((await boatNow()).speedTables['bare-poles']).toEqual([
      { twaDeg: 90, twsKn: 10, boatSpeedKn: 5 },
      { twaDeg: 90, twsKn: 20, boatSpeedKn: 6.5 },
      { twaDeg: 150, twsKn: 10, boatSpeedKn: 4.5 },
    ]);
    expect((await forms.post(PATH, { do: 'remove' })).status).toBe(303);
    expect((await boatNow()).speedTables).toEqual(before);
  });

  it('with several wrong lines: each told, the text still there, nothing saved', async () => {
    const table = 'twa_deg,tws_kn,boat_speed_kn\n90,10,fast\n200,10,4\n90,12,5\n90,12,6';
    for (const press of ['look', 'save']) {
      const answer = await forms.post(PATH, { table, do: press });
      const page = textOf(await answer.text());
      expect(answer.status).toBe(422);
      for (const said of ['line 2', '200 is outside its range', 'two rows for 90° at 12 kn', '90,10,fast'])
        expect(page).toContain(said);
    }
    expect(await forms.version()).toBe('1.1');
  });

  it('the last one taken out: refused, she would have no speed at all', async () => {
    const ids = Object.keys((await boatNow()).speedTables);
    const answers = [];
    for (const id of ids) answers.push(await forms.post(`${BOAT}/speeds/${id}`, { do: 'remove' }));
    expect(answers.map(({ status }) => status)).toEqual([...ids.slice(1).map(() => 303), 422]);
    expect(textOf((await answers.at(-1)?.text()) ?? '')).toContain('No sail state has a speed table.');
  });

  it('of no sail state: no such page', async () => {
    expect((await fetch(`${server.url}${BOAT}/speeds/kite`)).status).toBe(404);
  });
});

describe('a handling', () => {
  const HEAVE_TO = `${BOAT}/handlings/heave-to`;

  it('every form sent back as it was shown: nothing is changed, not even a version', async () => {
    const hrefs = [...(await forms.html(BOAT)).matchAll(/href="(\/passage\/boat\/handlings\/[^"]+)"/g)].map(
      ([, href = '']) => href,
    );
    expect(hrefs.length).toBeGreaterThan(10);
    for (const href of hrefs.filter((one) => !one.endsWith('/new')))
      expect((await forms.send(href, {})).status, href).toBe(303);
    expect(await forms.version()).toBe('1.1');
  });

  it('one limit of a usual one: written with the two usual ones beside it, and told from the default', async () => {
    expect(textOf(await forms.html(HEAVE_TO))).toMatch(/Wind, no-go above kn Now the default: 45 kn\./);
    await forms.send(HEAVE_TO, { 'limits.trueWindKn.noGo': '40', settleMin: '20' });
    expect((await boatNow()).handlings?.find(({ id }) => id === 'heave-to')).toEqual({
      id: 'heave-to',
      settleMin: 20,
      limits: { trueWindKn: { ideal: 20, caution: 35, noGo: 40 } },
    });
    expect(textOf(await forms.html(HEAVE_TO))).toMatch(/Wind, no-go above kn Yours; default: 45 kn\./);
    expect(textOf(await forms.html(BOAT))).toMatch(/Heave to 20 \/ 35 \/ 40 kn 3 \/ 5 \/ 7 m/);
  });

  it('taken out, or all its inputs emptied: the default again', async () => {
    const before = await boatNow();
    await forms.send(HEAVE_TO, { settleMin: '20' });
    await forms.send(HEAVE_TO, { settleMin: '' });
    expect(await boatNow()).toEqual(before);
    await forms.send(HEAVE_TO, { settleMin: '20' });
    await forms.send(HEAVE_TO, { do: 'remove' });
    expect(await boatNow()).toEqual(before);
  });

  it.each([
    [{ 'limits.trueWindKn.noGo': '10' }, ['limits.trueWindKn.ideal']],
    [{ twaDeg: '200', settleMin: 'long' }, ['twaDeg', 'settleMin']],
    [{ sailStates: 'full-main, kite' }, ['sailStates']],
    [{ heading: 'course', twaDeg: '50' }, ['twaDeg']],
  ])('with %o: refused at its inputs, nothing saved', async (fields, wrong) => {
    const answer = await forms.send(HEAVE_TO, fields);
    expect([answer.status, wrongInputs(await answer.text())]).toEqual([422, wrong]);
    expect(await forms.version()).toBe('1.1');
  });

  const OWN = {
    id: 'warps',
    name: 'Run with warps',
    sailStates: 'bare-poles',
    twaDeg: '175',
    'limits.trueWindKn.ideal': '30',
    'limits.trueWindKn.caution': '45',
    'limits.trueWindKn.noGo': '60',
    'limits.seaHeightM.ideal': '4',
    'limits.seaHeightM.caution': '7',
    'limits.seaHeightM.noGo': '9',
  };

  it('of the user’s own: added, changed, taken out', async () => {
    expect((await forms.send(`${BOAT}/handlings/new`, OWN)).status).toBe(303);
    expect(textOf(await forms.html(BOAT))).toMatch(/Run with warps 30 \/ 45 \/ 60 kn 4 \/ 7 \/ 9 m/);
    await forms.send(`${BOAT}/handlings/warps`, { 'limits.seaHeightM.noGo': '8' });
    expect((await boatNow()).handlings?.at(-1)?.limits?.seaHeightM?.noGo).toBe(8);
    await forms.send(`${BOAT}/handlings/warps`, { do: 'remove' });
    expect((await boatNow()).handlings?.some(({ id }) => id === 'warps') ?? false).toBe(false);
  });

  it('of the user’s own, half told, or under a name that is taken: refused at the inputs', async () => {
    const half = await forms.send(`${BOAT}/handlings/new`, { id: 'warps', name: 'Run with warps' });
    expect([half.status, wrongInputs(await half.text())]).toEqual([
      422,
      ['sailStates', 'twaDeg', 'limits.trueWindKn.ideal', 'limits.seaHeightM.ideal'],
    ]);
    const taken = await forms.send(`${BOAT}/handlings/new`, { ...OWN, id: 'heave-to' });
    expect([taken.status, wrongInputs(await taken.text())]).toEqual([422, ['id']]);
  });

  it('changed by someone else meanwhile: told (409), and what is kept now stands beside', async () => {
    const mine = await forms.shown(HEAVE_TO);
    await forms.send(HEAVE_TO, { settleMin: '20' });
    const answer = await forms.post(HEAVE_TO, { ...mine, settleMin: '30' });
    expect([answer.status, textOf(await answer.text())]).toEqual([409, expect.stringContaining('Kept now: 20 min')]);
  });
});
