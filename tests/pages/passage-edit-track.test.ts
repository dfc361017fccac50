/** The track over HTTP: waypoints one by one, and a GPX text in their place. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type EditForms, editForms } from './passage-edit-forms.ts';
import { fieldsOf, textOf } from './sent-forms.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
let forms: EditForms;
beforeEach(async () => {
  server = await testServer();
  forms = editForms(server);
});
afterEach(() => server.close());

const LIST = '/passage/track';
async function waypoints() {
  const { track } = await forms.file();
  if (!Array.isArray(track)) throw new Error('the track is in a file');
  return track;
}
const latsNow = async () => (await waypoints()).map(({ lat }) => lat);

describe('the list', () => {
  it('the demo: each waypoint with its leg, and where she starts', async () => {
    const page = textOf(await forms.html(LIST));
    expect(page).toContain('She starts at waypoint 1.');
    // Bowditch, The American Practical Navigator (2019), mid-latitude sailing: 24' S; 204' E × cos 36.5° = 164.0 nm;
    // distance √(24² + 164.0²) = 165.7 nm, course 180° − atan(164.0 / 24) = 098°.
    expect(page).toMatch(/Waypoint 2 36°42\.0'S 178°30\.0'W rhumb line, 098° true, 165\.7 nm/);
  });

  it('moved later and earlier: the others close up, and back again is as before', async () => {
    const before = await latsNow();
    const down = await forms.post(`${LIST}/1/move`, { do: 'down' });
    expect([down.status, down.headers.get('Location')]).toEqual([303, `${LIST}?saved=1.2#waypoint-2`]);
    expect(await latsNow()).toEqual([before[0], before[2], before[1], before[3], before[4]]);
    await forms.post(`${LIST}/2/move`, { do: 'up' });
    expect(await latsNow()).toEqual(before);
  });

  it('moved by someone who has not seen what was saved meanwhile: told (409), nothing moved', async () => {
    await forms.post(`${LIST}/1/move`, { do: 'down' });
    const now = await latsNow();
    expect((await forms.post(`${LIST}/1/move`, { do: 'down', version: '1.1' })).status).toBe(409);
    expect(await latsNow()).toEqual(now);
  });
});

describe('a waypoint', () => {
  it('sent back as it was shown: nothing is changed, not even a version', async () => {
    for (const index of [0, 1, 4]) expect((await forms.send(`${LIST}/${index}`, {})).status).toBe(303);
    expect(await forms.version()).toBe('1.1');
  });

  it('added behind another: in its place, a great circle with a name', async () => {
    const path = `${LIST}/new?after=2`;
    expect(await forms.html(path)).toContain('A new waypoint, behind waypoint 2');
    const fields = { ...(await forms.shown(path)), position: '-36.8, -176', name: 'Turn', leg: 'great-circle' };
    expect((await forms.post(`${LIST}/new`, fields)).status).toBe(303);
    expect((await waypoints())[2]).toEqual({ lat: -36.8, lon: -176, name: 'Turn', leg: 'great-circle' });
    expect(await waypoints()).toHaveLength(6);
  });

  it('moved, named, and its leg changed: the others as they were', async () => {
    const before = await waypoints();
    await forms.send(`${LIST}/3`, { position: "33°00.0'S 166°00.0'W", leg: 'great-circle' });
    expect(await waypoints()).toEqual(before.with(3, { lat: -33, lon: -166, leg: 'great-circle' }));
  });

  it.each([
    ['1', { position: '95 S 10 E' }, /is not a position|outside the range/],
    ['1', { position: '' }, /It is missing\./],
    ['1', { position: "36°18.0'S 178°06.0'E" }, /same place as waypoint 1 before it/],
    ['1', { position: "36°24.0'S 173°30.0'W" }, /The waypoint behind it is at the same place\./],
  ])('waypoint %s with %o: refused at its field, nothing saved', async (index, fields, said) => {
    const answer = await forms.send(`${LIST}/${index}`, fields);
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(page).toMatch(/name="position"[^>]*aria-invalid="true"/);
    expect(textOf(page)).toMatch(said);
    expect(await forms.version()).toBe('1.1');
  });

  it('taken out until two are left: the last two stay, with the reason', async () => {
    for (const _ of [1, 2, 3]) expect((await forms.send(`${LIST}/1`, { do: 'remove' })).status).toBe(303);
    const answer = await forms.send(`${LIST}/1`, { do: 'remove' });
    expect([answer.status, textOf(await answer.text())]).toEqual([422, expect.stringContaining('at least 2 entries')]);
    expect(await waypoints()).toHaveLength(2);
  });

  it('taken out by someone else meanwhile: told (409), and added anew when saved again', async () => {
    const mine = await forms.shown(`${LIST}/3`);
    await forms.send(`${LIST}/3`, { do: 'remove' });
    const answer = await forms.post(`${LIST}/3`, { ...mine, position: '-33, -166' });
    const page = await answer.text();
    expect([answer.status, textOf(page)]).toEqual([409, expect.stringContaining('Saved again, it is added anew.')]);
    const again = fieldsOf(page.slice(page.indexOf('<main')));
    expect((await forms.post(`${LIST}/new`, again)).status).toBe(303);
    expect((await waypoints())[3]).toEqual({ lat: -33, lon: -166, leg: 'rhumb' });
  });

  it('that is not there: no such page', async () => {
    expect((await fetch(`${server.url}${LIST}/17`)).status).toBe(404);
    expect((await fetch(`${server.url}${LIST}/new?after=17`)).status).toBe(404);
  });
});

/** GPX 1.1 schema (topografix.com/GPX/1/1): a route of three points, the names broken as a file may break them. */
const GPX = `<?xml version="1.0"?>
<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
<rte><rtept lat="-36.3" lon="178.1"><name>Off
the cape</name></rtept><rtept lat="-35" lon="-178"/><rtept lat="-30" lon="-170"/></rte></gpx>`;

describe('a GPX text', () => {
  it('looked at: what it holds, nothing saved; then taken over', async () => {
    const look = await forms.post(`${LIST}/gpx`, { gpx: GPX, do: 'look' });
    const page = await look.text();
    expect([look.status, textOf(page)]).toEqual([200, expect.stringMatching(/In the text: 3 waypoints, \d+\.\d nm/)]);
    expect(await forms.version()).toBe('1.1');
    expect((await forms.post(`${LIST}/gpx`, { gpx: GPX, do: 'save' })).status).toBe(303);
    expect(await waypoints()).toEqual([
      { lat: -36.3, lon: 178.1, name: 'Off the cape' },
      { lat: -35, lon: -178 },
      { lat: -30, lon: -170 },
    ]);
  });

  it.each([
    ['', /It is empty\./],
    ['not xml', /./],
    [GPX.replace('version="1.1"', 'version="1.0"'), /GPX 1\.0/],
    [GPX.replace('lat="-35"', 'lat="-95"'), /Its lat is "-95"/],
  ])('that cannot be read: refused with what to do, the text still there', async (gpx, said) => {
    for (const press of ['look', 'save']) {
      const answer = await forms.post(`${LIST}/gpx`, { gpx, do: press });
      const page = await answer.text();
      expect([answer.status, textOf(page)]).toEqual([422, expect.stringMatching(said)]);
      expect(page).toMatch(/<textarea id="gpx-text"[^>]*aria-invalid="true"/);
      expect(textOf(page)).toContain('What to do');
      expect(page).toContain(gpx.slice(0, 5).replace('<', '&lt;'));
    }
    expect(await forms.version()).toBe('1.1');
  });

  it('whose points begin elsewhere than the start: she sails there first, and that is said', async () => {
    await forms.post(`${LIST}/gpx`, { gpx: GPX.replace('178.1', '179.1'), do: 'save' });
    expect(textOf(await forms.html(LIST))).toMatch(/She starts at 36°18\.0'S 178°06\.0'E, 48\.\d nm from waypoint 1/);
  });

  it('taken over where somebody has saved meanwhile: told (409), the text still there', async () => {
    await forms.send('/passage/settings', { seed: '9' });
    const answer = await forms.post(`${LIST}/gpx`, { gpx: GPX, do: 'save', version: '1.1' });
    expect([answer.status, await answer.text()]).toEqual([409, expect.stringContaining('Off\nthe cape')]);
    expect(await waypoints()).toHaveLength(5);
  });
});
