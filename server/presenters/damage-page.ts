import { totalMinutes } from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import {
  battenLimitText,
  type DamageReport,
  findingTexts,
  reportTexts,
  type SailFile,
  sailText,
  stitchText,
  type TearReport,
  tearTitle,
} from '../../lib/sail/index.ts';
import { jobsMade, reportOf, tearEntries } from '../damage-forms/index.ts';
import type { Clock } from './clock.ts';
import type { EntryPage, SailPicture } from './entry-page.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { type JobLink, jobPageHref } from './job-page.ts';
import { versionText } from './notices.ts';

export type DamagePages = DamagePage | EntryPage;

/** Every sail with its drawing and what can be said of it. */
export interface DamagePage {
  readonly kind: 'damage';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  /** What is damaged, in a sentence. */
  readonly summary: string;
  readonly sails: readonly SailView[];
}

export interface SailView {
  readonly index: number;
  readonly title: string;
  /** Its counts. */
  readonly text: string;
  /** What to do before anything is mended: the reef for each tear and batten, and for all of it together. */
  readonly first: readonly string[];
  readonly picture: SailPicture;
  readonly tears: readonly TearView[];
  /** What was not given, and what was taken for it. */
  readonly taken: DamageReport['shape']['taken'];
}

export interface TearView {
  readonly index: number;
  readonly title: string;
  readonly findings: readonly string[];
  readonly sewing: string;
  /** Minutes of its jobs, and what they stand between. */
  readonly jobs: readonly string[];
  /** Sewing that is among the jobs already: it may be that of this tear. */
  readonly there: readonly JobLink[];
}

export function damagePage(document: JobDocument, nowEpochMs: number): DamagePage {
  const { passage, file } = document;
  const sails = passage.sails.flatMap((one, index) => {
    const report = reportOf(file, index);
    return report === null ? [] : [sailView(report, { index, sail: one.sail, passage })];
  });
  return {
    kind: 'damage',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    summary: summaryText(sails, passage),
    sails,
  };
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

function summaryText(sails: readonly SailView[], passage: Passage): string {
  if (sails.length === 0)
    return 'No sail is described yet. Count its panels, battens and reefs, then say in which panel the tear is.';
  const tearCount = sails.reduce((sum, { tears }) => sum + tears.length, 0);
  const brokenCount = passage.sails.reduce((sum, { sail }) => sum + (sail.battens?.states?.length ?? 0), 0);
  const what = [
    counted(sails.length, 'sail', 'sails'),
    tearCount === 0 ? 'no tear' : counted(tearCount, 'tear', 'tears'),
    ...(brokenCount === 0 ? [] : [`${counted(brokenCount, 'batten', 'battens')} not whole`]),
  ];
  return `${what.join(', ')}. Places are counted and shapes approximate: look before you rely on one.`;
}

const sailWords: Readonly<Record<SailFile['kind'], string>> = {
  mainsail: 'Mainsail',
  headsail: 'Headsail',
  staysail: 'Staysail',
  trysail: 'Trysail',
};

export const sailTitle = ({ name, kind }: SailFile): string => name ?? sailWords[kind];

/** The drawing of a sail, with everything it shows in sentences. */
export const sailPicture = (report: DamageReport): SailPicture => ({
  title: `Drawing: ${sailTitle(report.shape.sail)}`,
  report,
  description: reportTexts(report).flat().join(' '),
});

interface Of {
  readonly index: number;
  readonly sail: SailFile;
  readonly passage: Passage;
}

function sailView(report: DamageReport, of: Of): SailView {
  return {
    index: of.index,
    title: sailTitle(of.sail),
    text: sailText(report),
    first: firstTexts(report),
    picture: sailPicture(report),
    tears: report.tears.map((tear, index) => tearView(tear, index, of)),
    taken: report.shape.taken,
  };
}

const answersOf = ({ findings }: TearReport) => findings.filter((finding) => finding.code === 'tear.first-answer');

function firstTexts(report: DamageReport): readonly string[] {
  const { tears, battens } = report;
  const answers = tears.flatMap((tear) =>
    findingTexts(answersOf(tear)).map((text) => (tear.mark === '' ? text : `${tear.mark}, ${tear.tear.id}: ${text}`)),
  );
  return [...answers, ...battens.map(battenLimitText), ...togetherText(report)];
}

/** The reef that answers everything; said only where each has one and every one is sure. */
function togetherText({ tears, battens }: DamageReport): readonly string[] {
  const answers = tears.flatMap(answersOf);
  const asked = [
    ...answers.map(({ reef, isSure }) => (isSure ? reef : null)),
    ...battens.filter(({ why }) => why !== 'joined' && why !== 'flutter').map(({ reef }) => reef),
  ];
  const reefs = asked.flatMap((reef) => (reef === null ? [] : [reef.itsNumber]));
  if (reefs.length < 2 || reefs.length < asked.length) return [];
  return [`All of it together: reef ${Math.max(...reefs)}, or deeper.`];
}

function tearView(tear: TearReport, index: number, { sail, passage }: Of): TearView {
  return {
    index,
    title: tearTitle(tear),
    findings: findingTexts(tear.findings.filter(isToldBelow)),
    sewing: stitchText(tear.stitch),
    jobs: jobsTexts(tear, sail.kind === 'mainsail', passage),
    there: passage.jobs
      .filter(({ seam }) => seam !== null)
      .map(({ id, name }) => ({ href: jobPageHref(id), text: name })),
  };
}

/** The answer stands first of all, and the length in the title unless it is drawn shorter. */
const isToldBelow = (finding: TearReport['findings'][number]): boolean =>
  finding.code === 'tear.length' ? finding.drawnM < finding.lengthM - 0.005 : finding.code !== 'tear.first-answer';

function jobsTexts(tear: TearReport, isMainsail: boolean, passage: Passage): readonly string[] {
  const ways = [false, true].map((isBelow) => tearEntries(passage, tear, { isMainsail, isBelow }));
  const [deck, below] = ways;
  if (deck === undefined || below === undefined) return [];
  const minutesOf = ({ entries }: typeof deck): string => {
    const totals = jobsMade(entries).map(totalMinutes);
    const sum = (key: 'p50Min' | 'p90Min'): number => Math.round(totals.reduce((all, one) => all + one[key], 0));
    return `${sum('p50Min')} (${sum('p90Min')}) min`;
  };
  const patch = deck.entries.length > 1 ? ', the patch among them' : '';
  return [
    `On deck ${minutesOf(deck)}, below ${minutesOf(below)}${patch}: half of all tries, in brackets 90 of 100.`,
    betweenText(deck.after?.name ?? null, deck.hoist?.name ?? null, isMainsail),
  ];
}

function betweenText(drop: string | null, hoist: string | null, isMainsail: boolean): string {
  if (!isMainsail) return 'They do not take the sail down: put the job that does before them.';
  if (drop === null) return 'No job takes the mainsail down yet: add one, and put it before them.';
  return `They come after “${drop}”${hoist === null ? '; no job hoists the sail again yet' : `, and “${hoist}” waits for them`}.`;
}
