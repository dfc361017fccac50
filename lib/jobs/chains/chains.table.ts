import type { Chain, ChainLink } from './chain.ts';

/** A link that is always there. */
const core = (id: string, from: string, after: readonly string[], why: string): ChainLink => ({
  id,
  from,
  after,
  isCore: true,
  why,
  priority: 9,
});

/** A link for what is broken. */
const part = (id: string, from: string, after: readonly string[], why: string): ChainLink => ({
  ...core(id, from, after, why),
  isCore: false,
  priority: 7,
});

const BELOW_AND_EARLY = 'Nothing has to be down for it; its wait runs while you sleep.';

/**
 * Chains of common practice, no source. What shares one drop of the mainsail stands between the drop and the hoist; soaks
 * and cures that it needs stand before the drop.
 */
export const CHAINS: readonly Chain[] = [
  {
    id: 'one-drop',
    name: 'One drop of the mainsail, everything mended while it is down',
    what: 'Drop, sew, patch, battens, gooseneck, track; hoist to the deep reef; look at it after 0, 15 and 60 minutes.',
    links: [
      part('oil', 'fastener-oil', [], `A seized bolt needs its soak before it turns. ${BELOW_AND_EARLY}`),
      part('bench', 'batten-make', [], `The new batten cures before it is bent. ${BELOW_AND_EARLY}`),
      core('drop', 'drop-main', [], 'All that follows shares this one drop.'),
      part('stitch', 'stitch-tear', ['drop'], 'Sewn while the sail is down; the long one: it takes the light air.'),
      part('dry', 'sail-dry', ['drop'], 'A patch sticks to clean, dry cloth only.'),
      part('patch', 'patch-tape', ['drop', 'dry', 'stitch'], 'Over the finished seam, so that it carries the load.'),
      part('box', 'luff-box', ['drop'], 'The luff box is at hand only while the sail is down.'),
      part('battens', 'batten-swap', ['drop', 'bench', 'box'], 'The new batten goes in before the hoist.'),
      part('gooseneck', 'gooseneck-bolt', ['drop', 'oil'], 'The boom is unloaded only while the sail is down.'),
      part('track', 'track-clean', ['drop'], 'The sail runs up more easily on a clean track.'),
      part('halyard', 'halyard-freshen', ['drop'], 'The halyard is slack only while the sail is down.'),
      core(
        'hoist',
        'hoist-main',
        ['drop', 'stitch', 'dry', 'patch', 'box', 'battens', 'gooseneck', 'track', 'halyard'],
        'To the deep reef first: a repair fails at its first load.',
      ),
      core('inspect', 'inspect-after-hoist', ['hoist'], 'Looked at after 0, 15 and 60 minutes under load.'),
    ],
  },
  {
    id: 'halyard-with-mouse',
    name: 'Parted halyard, a mouse line in the mast',
    what: 'A new halyard on the mouse line, hoist to the deep reef, look at it.',
    links: [
      core('reeve', 'halyard-reeve', [], 'From the deck: nobody goes aloft for it.'),
      core('hoist', 'hoist-main', ['reeve'], 'To the deep reef first.'),
      core('inspect', 'inspect-after-hoist', ['hoist'], 'Look up: the new halyard runs true and chafes nowhere.'),
    ],
  },
  {
    id: 'halyard-aloft',
    name: 'Parted halyard, no mouse line',
    what: 'Try the spare or spinnaker halyard, or the topping lift, as main halyard first. Aloft only when the window is real: with the mainsail down she rolls, so steady her with a headsail sheeted close.',
    links: [
      core('aloft', 'aloft', [], 'A new mouse line is dropped through the mast from the masthead.'),
      core('reeve', 'halyard-reeve', ['aloft'], 'Pulled through on the mouse line.'),
      core('hoist', 'hoist-main', ['reeve'], 'To the deep reef first.'),
      core('inspect', 'inspect-after-hoist', ['hoist'], 'Look up: the new halyard runs true and chafes nowhere.'),
    ],
  },
  {
    id: 'sail-change',
    name: 'Another mainsail bent on',
    what: 'Oil the screws of the boxes and cars a day before; then a whole day: drop, unbend, bend on, hoist.',
    links: [
      part('oil', 'fastener-oil', [], `Screws of boxes and cars seize. ${BELOW_AND_EARLY}`),
      core('drop', 'drop-main', [], 'The old sail comes down.'),
      core('unbend', 'main-unbend', ['drop', 'oil'], 'Battens, boxes and cars off, each labelled from the head.'),
      core('bend-on', 'main-bend-on', ['unbend'], 'The longest piece of it: for the lightest air.'),
      core('hoist', 'hoist-main', ['bend-on'], 'To the deep reef first.'),
      core('inspect', 'inspect-after-hoist', ['hoist'], 'Cars, lashings and reef lines under load.'),
    ],
  },
  {
    id: 'bad-shroud',
    name: 'A shroud in rope in place of a bad one',
    what: 'Splice at any time, stay on the good tack, rig it in the light; it stretches: tension it again.',
    links: [
      core('splice', 'splice', [], 'Below, in any weather.'),
      core('shroud', 'shroud-rope', ['splice'], 'On the tack that unloads it.'),
      core('tension', 'rig-tension', ['shroud'], 'Rope gives in its first hours: again after 2, 6 and 24 hours.'),
    ],
  },
  {
    id: 'deck-leak',
    name: 'A leaking deck fitting bedded anew',
    what: 'Sail on the tack that lifts it, dry it, bed it, turn it down when it has cured.',
    links: [
      part('dry-room', 'stow-trim', [], 'Room below to reach the nuts.'),
      core('bed', 'rebed', ['dry-room'], 'Its cure is part of the job: the last turn comes after it.'),
    ],
  },
  {
    id: 'fouled-propeller',
    name: 'Rope in the propeller',
    what: 'From the deck first. She sails home without an engine; swimming is a last resort, in a flat calm or at anchor.',
    links: [
      core('from-deck', 'prop-deck', [], 'Most ropes come off the way they went on.'),
      part('swim', 'prop-swim', ['from-deck'], 'Only where the deck did not do, and the sea is flat.'),
    ],
  },
];
