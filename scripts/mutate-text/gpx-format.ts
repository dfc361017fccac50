import { formatGpx, measureTrack, parseGpx, positionAtNm, type Track } from '../../lib/track/index.ts';
import { accepted, type Attempt, refused } from './attempt.ts';
import { decoded, type TextFormat } from './format.ts';
import { xmlDamages } from './xml-damages.ts';

const GIANT_ONE_IN = 60;
/** As formatGpx writes places [°]. */
const NEAR_DEG = 1e-6;

const TRACK: Track = {
  waypoints: [
    { lat: -36.3, lon: 178.1, name: 'Start & "home"', leg: 'rhumb' },
    { lat: -36.7, lon: -178.5, name: null, leg: 'great-circle' },
    { lat: -34.2, lon: -165.5, name: 'Réef <1>', leg: 'rhumb' },
  ],
};
const RECORDED = `<?xml version='1.0' encoding='UTF-8'?>
<!-- from a plotter -->
<g:gpx version='1.1' creator='plotter' xmlns:g='http://www.topografix.com/GPX/1/1'>
 <g:trk><g:name><![CDATA[Last <summer>]]></g:name><g:trkseg>
  <g:trkpt lat="1.5" lon="10"><g:ele>0</g:ele><g:time>2026-05-01T00:00:00Z</g:time></g:trkpt>
  <g:trkpt lon="+10.25" lat=".75"><g:name>A &#233; &amp;</g:name></g:trkpt>
 </g:trkseg><g:trkseg><g:trkpt lat="-1" lon="11"/></g:trkseg></g:trk>
</g:gpx>
`;

export function gpxFormat(): TextFormat {
  const mark = { position: { lat: -36.4, lon: 178.9 }, name: 'Stitch', note: '02:00', epochMs: Date.UTC(2026, 4, 28) };
  return {
    samples: [
      { name: 'route', text: formatGpx(TRACK, { name: 'Home', marks: [mark] }) },
      { name: 'recorded track', text: RECORDED },
    ],
    own: xmlDamages(GIANT_ONE_IN),
    attempt: gpxAttempt,
  };
}

function gpxAttempt(octets: Uint8Array): Attempt {
  const text = decoded(octets);
  const read = parseGpx(text, 'mutant.gpx');
  if (!read.ok) return refused(read.problems, text);
  const measured = measureTrack(read.value);
  const end = positionAtNm(measured, 1);
  if (!Number.isFinite(end.position.lat)) return accepted('a place on the track is nowhere');
  const again = parseGpx(formatGpx(read.value, { name: 'again' }), 'again.gpx');
  if (!again.ok)
    return accepted(isOnePlace(read.value) ? null : `written again it is refused: ${again.problems[0].what}`);
  return accepted(trackDifference(read.value, again.value));
}

/** Points nearer than the decimals that are written become one. */
const isOnePlace = ({ waypoints }: Track): boolean =>
  waypoints.every((point, i) => i === 0 || isNear(point, waypoints[i - 1] ?? point));

const isNear = (a: { lat: number; lon: number }, b: { lat: number; lon: number }): boolean =>
  Math.abs(a.lat - b.lat) <= NEAR_DEG && Math.abs(((a.lon - b.lon + 540) % 360) - 180) <= NEAR_DEG;

function trackDifference(first: Track, second: Track): string | null {
  const distinct = first.waypoints.filter((point, i) => i === 0 || !isNear(point, first.waypoints[i - 1] ?? point));
  if (distinct.length !== second.waypoints.length)
    return `${distinct.length} waypoints became ${second.waypoints.length}`;
  for (const [i, point] of distinct.entries()) {
    const other = second.waypoints[i];
    const isSame = other !== undefined && isNear(point, other) && point.leg === other.leg && point.name === other.name;
    if (!isSame) return `waypoint ${i + 1}: ${JSON.stringify(point)} became ${JSON.stringify(other)}`;
  }
  return null;
}
