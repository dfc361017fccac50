import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { XmlDocument, XsdValidator } from 'libxml2-wasm';
import { afterAll, describe, expect, it } from 'vitest';
import { planGpx } from '../../../lib/brief/export/index.ts';
import type { Plan } from '../../../lib/planner/index.ts';
import { parseGpx, type Track } from '../../../lib/track/index.ts';
import { drawnPlan } from './drawn-plans.ts';
import { names, ODD_NAMES, plan, planNamed } from './exports-fixture.ts';

// The published schema (tests/golden/gpx), asked by libxml2.
const schema = XmlDocument.fromString(readFileSync(new URL('../../golden/gpx/gpx-1.1.xsd', import.meta.url), 'utf8'));
const validator = XsdValidator.fromDoc(schema);
afterAll(() => {
  validator.dispose();
  schema.dispose();
});

/** What the schema says against a text; empty: nothing. */
function faultOf(text: string): string {
  try {
    const document = XmlDocument.fromString(text);
    try {
      validator.validate(document);
    } finally {
      document.dispose();
    }
    return '';
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** Texts and attributes of the elements an XPath finds, as libxml2 reads them. */
function found(text: string, path: string): string[] {
  const document = XmlDocument.fromString(text);
  const texts = document.find(path, { g: 'http://www.topografix.com/GPX/1/1' }).map((node) => node.content);
  document.dispose();
  return texts;
}

const track: Track = {
  waypoints: [
    { lat: -36.3, lon: 178.1, name: 'Start & go', leg: 'rhumb' },
    { lat: -36.6, lon: -178.5, name: null, leg: 'great-circle' },
    { lat: -37, lon: 180, name: 'On the line', leg: 'rhumb' },
  ],
};
const gpxOf = (of: Plan): string => planGpx(of, { names, track });

describe('planGpx', () => {
  it('the fixture plan is valid by the published schema, by Slatch', () => {
    expect(faultOf(gpxOf(plan))).toBe('');
    expect(found(gpxOf(plan), '/g:gpx/@creator')).toEqual(['Slatch']);
  });

  it('a waypoint where each job begins, with its time, handling and fair starts', () => {
    const begun = plan.jobs.filter(({ jobId }) =>
      plan.entries.some((one) => one.kind === 'work' && one.jobId === jobId),
    );
    const text = gpxOf(plan);
    expect(found(text, '//g:wpt/g:name').toSorted()).toEqual(begun.map(({ name }) => name).toSorted());
    const oil = begun.find(({ jobId }) => jobId === 'oil');
    const at = `//g:wpt[g:name="${oil?.name}"]`;
    expect(found(text, `${at}/g:time`)).toEqual([oil?.startUtc?.replace('Z', ':00Z')]);
    expect(found(text, `${at}/@lat`)).toEqual(['-35.200000']);
    const [says = ''] = found(text, `${at}/g:desc`);
    expect(says).toContain('headsail only, deck; 9 kn over the deck (6 to 12).');
    expect(says).toContain('Fair starts: ');
  });

  it('the track as the route, over the date line, as our own reader takes it back', () => {
    const read = parseGpx(gpxOf(plan), 'plan.gpx');
    expect(read).toEqual({
      ok: true,
      value: {
        waypoints: track.waypoints.map((waypoint) => (waypoint.lon === 180 ? { ...waypoint, lon: -180 } : waypoint)),
      },
    });
  });

  it('the way as planned: a point for each instant at which an entry begins, in order', () => {
    const times = found(gpxOf(plan), '//g:trkpt/g:time');
    const starts = [...new Set(plan.entries.map(({ startUtc }) => startUtc.replace('Z', ':00Z')))];
    expect(times).toEqual(starts.toSorted());
  });

  it('cautions stand in the description of the file', () => {
    const [says = ''] = found(gpxOf(plan), '/g:gpx/g:metadata/g:desc');
    for (const caution of plan.cautions) expect(says).toContain(caution);
  });

  it('a plan of nothing, without a track: still valid', () => {
    expect(faultOf(planGpx({ ...plan, entries: [], jobs: [] }, { names, track: null }))).toBe('');
  });

  it.each(ODD_NAMES)('a name of odd characters: valid, and read back by libxml2: %j', (name) => {
    const text = gpxOf(planNamed(name));
    expect(faultOf(text)).toBe('');
    const [read] = found(text, '//g:wpt/g:name');
    const printable = (of: string): string => of.replaceAll(/[^\p{L}\p{N}\p{P}\p{Sm}\p{So}]/gu, '');
    expect(printable(read ?? '')).toBe(printable(name).replaceAll(/[\uFFFE\uFFFF]/g, ''));
  });

  it('any plan is valid by the published schema', () => {
    fc.assert(
      fc.property(drawnPlan, (drawn) => {
        expect(faultOf(gpxOf(drawn))).toBe('');
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});

describe('the schema', () => {
  const good = gpxOf(plan);
  it.each([
    ['a longitude of 180', good.replace(/lon="[^"]+"/, 'lon="180.000000"')],
    ['a latitude beyond the pole', good.replace(/lat="[^"]+"/, 'lat="-90.5"')],
    ['a time without seconds', good.replace(/<time>[^<]+/, '<time>2026-05-27T20:12Z')],
    ['name before time', good.replace(/(<time>[^<]+<\/time>)\s*(<name>[^<]+<\/name>)/, '$2$1')],
    ['no creator', good.replace(' creator="Slatch"', '')],
    [
      'another version',
      good.replace('version="1.1"', 'version="1.0"').replace('<?xml version="1.0"', '<?xml version="1.0"'),
    ],
    ['a control character', good.replace('<name>', '<name>\u0007')],
  ])('%s: refused', (_, bad) => {
    expect(bad).not.toBe(good);
    expect(faultOf(bad)).not.toBe('');
  });
});
