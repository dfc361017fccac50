import { COMMON_PRACTICE } from '../provenance.ts';
import type { JobGroup } from '../job.ts';

/** What a job may do without an item or a tool. */
export interface Substitute {
  readonly id: string;
  /** Items or tools it does without. */
  readonly insteadOf: readonly string[];
  /** Library jobs it is for; empty: every job. */
  readonly jobs: readonly string[];
  /** Groups of jobs it is for; empty: every group. */
  readonly groups: readonly JobGroup[];
  /** What to do, as a sentence. */
  readonly instead: string;
  /** Why it works, and what it costs. */
  readonly because: string;
  /** A figure it is worked out with; null: none. */
  readonly saves: 'row' | null;
  readonly provenance: string;
}

const any = { jobs: [], groups: [], saves: null, provenance: COMMON_PRACTICE } as const;

/** In the order they are offered: what changes the job least comes first. Common practice, no source, each of them. */
export const SUBSTITUTES: readonly Substitute[] = [
  {
    ...any,
    id: 'fewer-rows',
    insteadOf: ['waxed twine', 'needles'],
    instead: 'Sew one row less ("rows").',
    because:
      'A row less takes a share less of twine and needles and of the hours; what it holds falls by the same share, so reef deeper on it.',
    saves: 'row',
  },
  {
    ...any,
    id: 'deeper-reef',
    insteadOf: ['waxed twine', 'needles', 'sticky-back cloth', 'webbing', 'batten rod', 'batten'],
    groups: ['sail-repair'],
    instead: 'Sail with a deeper reef and leave the damage in the bunt.',
    because: 'Damage below a set reef carries no load; it costs speed, and nothing of the locker.',
  },
  {
    ...any,
    id: 'tape-for-twine',
    insteadOf: ['waxed twine', 'needles', "sailmaker's palm", 'palm'],
    groups: ['sail-repair'],
    instead: 'Stick sticky-back cloth over both sides instead of sewing.',
    because:
      'It holds where the load is small and the cloth is dry; under load it creeps, so only below a reef or away from the edges.',
  },
  {
    ...any,
    id: 'yarns-for-twine',
    insteadOf: ['waxed twine'],
    instead: 'Draw yarns from the core of an old polyester rope and wax them with a candle.',
    because: 'Several yarns together are as strong as twine; they fray, so shorter needlefuls.',
  },
  {
    ...any,
    id: 'cloth-for-sticky',
    insteadOf: ['sticky-back cloth'],
    instead: 'Sew on cloth from an old sail or a sail bag, edges turned under.',
    because: 'It holds better than glue, takes hours of needle work, and twine.',
  },
  {
    ...any,
    id: 'shorter-sleeve',
    insteadOf: ['batten sleeve'],
    instead: 'Make the sleeve shorter: 10 rod diameters on each side of the joint instead of 12.',
    because: 'That is the least that still holds when it is bonded well; keep the joint out of the bend.',
  },
  {
    ...any,
    id: 'splints-for-sleeve',
    insteadOf: ['batten sleeve'],
    instead: 'Join with splints on both sides, 12 to 15 diameters each way, bonded and lashed over their whole length.',
    because: 'It is thicker than a sleeve: see that it passes into the pocket.',
  },
  {
    ...any,
    id: 'join-rods',
    insteadOf: ['batten rod'],
    instead: 'Join two off-cuts; slatch cut says which, and where the joint may lie.',
    because: 'A sleeved joint bends stiffer than the rod, so it belongs where the batten is straight.',
  },
  {
    ...any,
    id: 'batten-from-below',
    insteadOf: ['batten rod', 'batten'],
    instead: 'Take the batten out of a pocket below the deep reef.',
    because: 'While she sails reefed that pocket lies in the bunt; shorter is better than too long.',
  },
  {
    ...any,
    id: 'lash-for-epoxy',
    insteadOf: ['epoxy'],
    jobs: ['batten-make'],
    instead: 'Lash the joint with waxed twine over its whole length instead of bonding it.',
    because: 'It needs no cure and no warmth; it works loose with time, so look at it daily.',
  },
  {
    ...any,
    id: 'other-halyard',
    insteadOf: ['main halyard', 'halyard rope'],
    instead: 'Use the spinnaker halyard or the topping lift as main halyard.',
    because:
      'It saves going aloft; it leads off to one side and chafes, so hoist to the reef only, and hold the boom up by other means.',
  },
  {
    ...any,
    id: 'thin-oil',
    insteadOf: ['penetrating oil'],
    instead: 'Soak it with diesel or thin machine oil, more often and longer.',
    because: 'They creep more slowly: begin a day earlier. Keep it off sails, cloth and anything hot.',
  },
  {
    ...any,
    id: 'grease-for-paste',
    insteadOf: ['isolating paste'],
    instead: 'Use waterproof grease or lanolin.',
    because: 'It keeps water out of the thread for a season; it does not part the metals as long.',
  },
  {
    ...any,
    id: 'line-for-ties',
    insteadOf: ['sail ties'],
    instead: 'Use any soft line of 6 to 8 mm, or the tails of the reef lines.',
    because: 'They hold as well; a slip knot in each, so that one hand lets it go.',
  },
  {
    ...any,
    id: 'twine-for-tape',
    insteadOf: ['rigging tape'],
    instead: 'Whip it with twine, or wrap a strip of cloth round and sew it.',
    because: 'It lasts longer than tape and takes some minutes more.',
  },
  {
    ...any,
    id: 'lashing-for-bolt',
    insteadOf: ['gooseneck bolt'],
    instead: 'Fit a threaded rod with two nuts, or lash boom to mast with many turns of low-stretch line.',
    because: 'A lashing carries the boom in light and middling wind; it chafes, so renew it before it is half through.',
  },
  {
    ...any,
    id: 'sealant-for-butyl',
    insteadOf: ['butyl tape'],
    instead: 'Bed it on sealant.',
    because: 'It needs a dry surface and a cure before the sea comes over it.',
  },
  {
    ...any,
    id: 'bolt-for-pin',
    insteadOf: ['clevis pin'],
    instead: 'Fit a bolt of the same diameter whose shank, not its thread, bears the load; secure the nut.',
    because: 'It carries as much where the shank fills the hole; a thread in the hole wears and breaks.',
  },
  {
    ...any,
    id: 'wire-for-split-pins',
    insteadOf: ['split pins', 'split rings'],
    instead: 'Secure the pin with seizing wire through its hole, ends taped.',
    because: 'It keeps the pin in, and has to be cut to get it out.',
  },
  {
    ...any,
    id: 'wire-for-hose-clips',
    insteadOf: ['hose clips'],
    instead: 'Bind the hose with several turns of seizing wire, twisted tight, or of strong line.',
    because: 'It is tight enough for low pressure; look at it every hour, and shut the cock when it is not in use.',
  },
  {
    ...any,
    id: 'stitches-for-adhesive',
    insteadOf: ['polyurethane adhesive'],
    instead: 'Sew the patch on round its edge, or use sticky-back cloth and sew its edge.',
    because: 'It needs no cure, but hours of needle work, and twine.',
  },
  {
    ...any,
    id: 'waxed-for-whipping',
    insteadOf: ['whipping twine'],
    instead: 'Use waxed twine.',
    because: 'It is the same but for its thickness; see that the sails keep their share.',
  },
  {
    ...any,
    id: 'sawn-by-file',
    insteadOf: ['fine hacksaw', 'hacksaw'],
    instead: 'File a groove round the rod and break it there, then dress the end.',
    because: 'It works on thin rod; wet the cut and keep the dust off hands and eyes.',
  },
  {
    ...any,
    id: 'awl-for-drill',
    insteadOf: ['drill', 'hand drill', 'drill battery'],
    groups: ['sail-repair'],
    instead: 'Pierce the holes with an awl, hot if need be.',
    because: 'Cloth and webbing need no drill; it is slower in many layers.',
  },
];
