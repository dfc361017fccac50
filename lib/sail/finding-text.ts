/** Findings in words. */
import { assertNever } from '../result/index.ts';
import { ordinalText, type Counted } from './counting.ts';
import type {
  AnswerFinding,
  BattenLimit,
  LoadFinding,
  PanelFound,
  PlaceFinding,
  ReefFinding,
  SeamFinding,
  TearFinding,
  Zone,
} from './finding.ts';

/** Metres to the centimetre. */
export const metresText = (lengthM: number): string => `${Number(lengthM.toFixed(2))} m`;

/** `batten 3 of 5 from the head = 3rd from the foot`. */
const battenText = ({ itsNumber, otherNumber, ofCount }: Counted): string =>
  `batten ${itsNumber} of ${ofCount} from the head = ${ordinalText(otherNumber)} from the foot`;

/** `reef 1 of 3 from the foot = 3rd from the head`. */
const reefText = ({ itsNumber, otherNumber, ofCount }: Counted): string =>
  `reef ${itsNumber} of ${ofCount} from the foot = ${ordinalText(otherNumber)} from the head`;

/** `panel 6 of 12 from the clew = 7th from the head`; of a gore also its fan. */
function panelText({ count, fan }: PanelFound): string {
  const { itsNumber, otherNumber, ofCount } = count;
  if (fan === null) return `panel ${itsNumber} of ${ofCount} from the clew = ${ordinalText(otherNumber)} from the head`;
  const own = `${ordinalText(fan.count.itsNumber)} of the ${fan.count.ofCount} at the ${fan.corner}`;
  return `gore ${itsNumber} of ${ofCount} counted from the tack around = ${ordinalText(otherNumber)} the other way round (${own})`;
}

/** One sentence for each finding, in order; a finding that another one tells has none. */
export const findingTexts = (findings: readonly TearFinding[]): readonly string[] =>
  findings.flatMap((finding) => {
    const text = findingText(finding);
    return text === null ? [] : [text];
  });

function findingText(finding: TearFinding): string | null {
  switch (finding.code) {
    case 'tear.length':
      return finding.drawnM < finding.lengthM - 0.005
        ? `The tear is ${metresText(finding.lengthM)} long, drawn as ${metresText(finding.drawnM)}: the typical sail is smaller there.`
        : `The tear is ${metresText(finding.lengthM)} long.`;
    case 'tear.place':
      return placeText(finding);
    case 'tear.moved':
      return `Its middle is drawn ${metresText(finding.movedM)} from the place counted, so that all of it lies on the sail.`;
    case 'tear.load':
      return loadText(finding);
    case 'tear.zones':
      return zonesText(finding.zones, finding.maybe);
    case 'tear.seam':
      return seamText(finding);
    case 'tear.batten':
      return finding.isCrossed
        ? `It crosses ${battenText(finding.count)}, and its pocket.`
        : `It touches the pocket of ${battenText(finding.count)}.`;
    case 'tear.reef-line':
      return `It crosses the line of ${reefText(finding.count)}: points and patches of that reef are hurt.`;
    case 'tear.reef':
      return reefFindingText(finding);
    case 'tear.first-answer':
      return answerText(finding);
    default:
      return assertNever(finding);
  }
}

function placeText(place: PlaceFinding): string {
  const panels = place.panels.map(panelText).join(', and ');
  const battens = place.betweenBattens === null ? '' : `, between ${place.betweenBattens.join(' and ')} of the battens`;
  const sure = `The place is counted, not measured: it may lie up to ${metresText(place.upM)} higher or ${metresText(place.downM)} lower${place.isPlaceSaid ? '' : ', and anywhere along the panel'}.`;
  const scale = {
    measured: '',
    'one-side': ' Only one side of the sail is known: the shape is approximate.',
    typical: ' No side of the sail is known: metres are those of a typical sail, the drawing is not to scale.',
  }[place.scale];
  return `It lies in ${panels}${battens}. ${sure}${scale}`;
}

function loadText({ runs, urgency, loadAngleDeg, isDirectionSaid }: LoadFinding): string {
  const way = {
    across: 'across the load',
    aslant: `aslant to the load, at ${Math.round(loadAngleDeg)}°`,
    along: 'along the load',
  }[runs];
  const what = {
    urgent: 'it opens under load. Take the load off it before it runs',
    soon: 'it runs when the sail is pressed. Mend it at the next chance',
    slow: 'it runs slowly. Watch it',
  }[urgency];
  return `It runs ${way}${isDirectionSaid ? '' : ' (not said: the worse that fits is taken)'}: ${what} (load lines are approximate).`;
}

const zoneWords: Readonly<Record<Zone, string>> = {
  corner: 'within 1 m of a corner, where load gathers',
  leech: 'in the last 15 % of the chord, at the leech',
  luff: 'in the first 15 % of the chord, at the luff',
  foot: 'within 0.5 m of the foot',
};

function zonesText(zones: readonly Zone[], maybe: readonly Zone[]): string {
  const sure =
    zones.length === 0
      ? 'It lies away from the edges and corners, where load is low'
      : `It lies ${zones.map((zone) => zoneWords[zone]).join(', and ')}`;
  return maybe.length === 0 ? `${sure}.` : `${sure}; it may lie ${maybe.map((zone) => zoneWords[zone]).join(', or ')}.`;
}

function seamText({ panelNumbers, corners, panelCount, isAlong }: SeamFinding): string {
  const others = panelNumbers?.map((itsNumber) => ordinalText(panelCount + 1 - itsNumber)).join(' and ');
  const seam =
    panelNumbers === null
      ? `seam where the gores of ${corners?.join(' and ') ?? 'two corners'} meet`
      : `seam between panels ${panelNumbers.join(' and ')} of ${panelCount} = ${others} from the other end`;
  return isAlong ? `It runs along the ${seam}.` : `It crosses the ${seam}.`;
}

function reefFindingText({ count, verdict, roomM, isSeen }: ReefFinding): string | null {
  const reef = reefText(count);
  if (verdict === 'below')
    return `It lies below ${reef}${isSeen ? ', as seen on deck' : `, by ${metresText(roomM)}`}: with that reef in it carries no load.`;
  if (verdict === 'likely-below')
    return `Drawn, it lies ${metresText(roomM)} below ${reef}, but count and height of the reef leave it open: look before you rely on it.`;
  if (verdict === 'partly')
    return `Only part of it lies surely below ${reef}: with that reef in it still carries load.`;
  return null;
}

function answerText({ reef, isSure, isSetNow, reefCount }: AnswerFinding): string {
  if (reef === null)
    return reefCount === 0
      ? 'The sail has no reef to take the tear out of use: it comes down, or is mended.'
      : `No reef takes it out of use: it lies above the highest, reef ${reefCount}, or reaches it.`;
  const name = `reef ${reef.itsNumber}`;
  if (!isSure) return `First answer, once looked at: sail with ${name} in, if the tear lies below it.`;
  return isSetNow
    ? `The reef that is in keeps it out of use: sail on, and mend it in the first light air.`
    : `First answer: sail with ${name} in, or deeper; the tear carries no load there, and mending can wait.`;
}

/** What a batten that is not whole means, in one sentence. */
export function battenLimitText({ count, state, reef, why }: BattenLimit): string {
  const batten = battenText(count);
  const start = `${batten.charAt(0).toUpperCase()}${batten.slice(1)} is ${state}`;
  const counts = state === 'cracked' ? ', and counts as missing until it is splinted' : '';
  const least = reef === null ? '' : `reef ${reef.itsNumber}`;
  const says: Readonly<Record<BattenLimit['why'], string>> = {
    'top-batten': `: no more sail than ${least}.`,
    'deepest-for-top': `: no more sail than ${least}, the deepest there is.`,
    'below-reef': `: no more sail than ${least}, which puts its pocket into the lowered part.`,
    'no-reef-above':
      ': no reef takes its pocket out of use. What the sail stands without it is not known: watch the leech, or lower it.',
    'no-reefs': ': the sail has no reef. What it stands without it is not known: watch the leech, or lower it.',
    flutter:
      ': no drive is lost, but hours of flutter tear the leech. Set up the leech line, or tape a strip in its place.',
    joined: ': no limit, but a stiff join makes a hinge at its ends. Look at the pocket there.',
  };
  return `${start}${counts}${says[why]}`;
}
