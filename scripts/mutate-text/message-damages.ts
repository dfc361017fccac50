/** Messages that lie: parts shuffled, doubled, lost, of others; counters, checks and signatures wrong; letters changed. */
import { formatPart, joinFrames, writeFrames } from '../../lib/message/index.ts';
import { type Damaging, ofText, type WeighedDamage } from './mutant.ts';

/** Letters that look like those of a message, to an eye. */
const LOOK_ALIKES: readonly (readonly [string, string])[] = [
  ['0', 'O'],
  ['O', '0'],
  ['1', 'I'],
  ['I', 'l'],
  ['5', 'S'],
  ['A', '\u0410'],
  ['P', '\u0420'],
  [';', '\u037E'],
  ['-', '\u2013'],
  ['.', '\u2024'],
  ['S', '\uFF33'],
];
const PUT_IN = [
  '\u{1F600}',
  ' ',
  '\n',
  '\r\n> ',
  '\u200B',
  '\u00AD',
  '#',
  ';',
  'SL;',
  'SL;P.',
  ':',
  '=\r\n',
  '&amp;',
  '\0',
];

const partsOf = (text: string): string[] => text.split('\n').filter((part) => part !== '');

function putAt(text: string, { below }: Damaging, piece: string): string {
  const at = below(text.length + 1);
  return text.slice(0, at) + piece + text.slice(at);
}

const HEAD = /^SL;([PDR])\.([A-Z0-9]{1,4})\.(\d+)\.(\d+)-(\d+);([^;]*);/;
const KINDS = { P: 'plan', D: 'digest', R: 'report' } as const;

/** A part whose head, or whose piece, is another, and whose check fits. */
function resealed(part: string, chance: Damaging): string {
  const [, letter, sender = '', counter = '', number = '', count = '', piece = ''] = HEAD.exec(part) ?? [];
  const kind = letter === 'P' || letter === 'D' || letter === 'R' ? KINDS[letter] : 'plan';
  const of = {
    kind,
    sender,
    counterNumber: Number(counter),
    partNumber: Number(number),
    partCount: Number(count),
    piece,
  };
  const changes = [
    { counterNumber: chance.pick([0, 1, 999_999, 1_000_000, of.counterNumber + 1]) },
    { partNumber: chance.pick([0, 1, 2, 999, 1000]) },
    { partCount: chance.pick([0, 1, 2, 3, 999, 1000]) },
    { sender: chance.pick(['', 'A', 'ABCDE', 'LW', 'lw', '..']) },
    { kind: chance.pick(['plan', 'digest', 'report'] as const) },
    { piece: changedPiece(piece, chance) },
    { piece: piece.repeat(chance.pick([0, 2, 40])) },
  ];
  return formatPart({ ...of, ...chance.pick(changes) });
}

const SIGNS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+-*/.,:()?!=_ ';

function changedPiece(piece: string, { below, pick }: Damaging): string {
  const at = below(piece.length + 1);
  return piece.slice(0, at) + pick(Array.from(SIGNS)) + piece.slice(at + below(3));
}

const LIMIT_COUNT = 160;

/** A body that was changed before it was sealed: what another version, or somebody who knows the format, may send. */
function withOtherBody(text: string, chance: Damaging): string {
  const [whole] = joinFrames(text, { where: 'sample', keyOctets: null }).whole;
  if (whole === undefined) return text;
  let { body } = whole;
  for (let left = 1 + chance.below(3); left > 0; left--) body = changedBody(body, chance);
  const minutes = chance.pick([0, 0, 0, 1, -1, 1440, -525_600, 20_000_000]);
  const baseEpochMs = whole.baseEpochMs + minutes * 60_000;
  const parts = writeFrames({ ...whole, baseEpochMs, body }, { limitCount: LIMIT_COUNT, keyOctets: null });
  return parts.ok ? parts.value.join('\n') : text;
}

/** Fields of a body are parted by these. */
const SEPARATORS = /(?<=[,/.*+=()!? ])/;

function changedBody(body: string, chance: Damaging): string {
  const fields = body.split(SEPARATORS);
  const at = chance.below(fields.length);
  const field = fields[at] ?? '';
  switch (chance.below(6)) {
    case 0:
      return changedPiece(body, chance);
    case 1:
      return fields.filter((_, i) => i !== at).join('');
    case 2:
      return fields.map((one, i) => (i === at ? one.repeat(chance.pick([2, 3, 50])) : one)).join('');
    case 3:
      return fields.map((one, i) => (i === at ? (fields[chance.below(fields.length)] ?? '') : one)).join('');
    case 4:
      return body.replace(field, () => field.replaceAll(/\d/g, () => String(chance.below(10))));
    default:
      return body.slice(0, chance.below(body.length + 1));
  }
}

const change = (name: string, weight: number, of: (text: string, chance: Damaging) => string): WeighedDamage => ({
  name,
  weight,
  damage: ofText(of),
});

const onePart = (text: string, chance: Damaging, of: (part: string) => string): string => {
  const parts = partsOf(text);
  const at = chance.below(Math.max(1, parts.length));
  return parts.map((part, i) => (i === at ? of(part) : part)).join('\n');
};

export const messageDamages = (giantOneIn: number): readonly WeighedDamage[] => [
  change('parts in another order', 2, (text, { below }) => {
    const parts = partsOf(text);
    const at = below(parts.length + 1);
    return [...parts.slice(at), ...parts.slice(0, at)].toReversed().join('\n');
  }),
  change('a part twice', 1, (text, chance) => `${text}\n${chance.pick([...partsOf(text), ''])}`),
  change('a part lost', 2, (text, chance) => onePart(text, chance, () => '')),
  change('parts of another message among them', 3, (text, chance) => `${text}\n${chance.anySample().text}`),
  change('a part of another in its place', 3, (text, chance) =>
    onePart(text, chance, () => chance.pick([...partsOf(chance.anySample().text), ''])),
  ),
  change('a part with another head or piece, its check fits', 8, (text, chance) =>
    onePart(text, chance, (part) => resealed(part, chance)),
  ),
  change('another body, sealed again', 12, withOtherBody),
  change('a letter that looks like it', 4, (text, { pick, below }) => {
    const [from, to] = pick(LOOK_ALIKES);
    const at = text.indexOf(from, below(text.length + 1));
    return at < 0 ? text : text.slice(0, at) + to + text.slice(at + from.length);
  }),
  change(
    'small letters',
    1,
    (text, { below }) => text.slice(0, below(text.length)) + text.slice(below(text.length)).toLowerCase(),
  ),
  change('capitals', 1, (text) => text.toUpperCase()),
  change('broken into lines by a phone', 2, (text, { below }) =>
    text.replaceAll(new RegExp(`.{${20 + below(60)}}`, 'g'), '$&\r\n'),
  ),
  change('something put in', 5, (text, chance) => putAt(text, chance, chance.pick(PUT_IN))),
  change('quoted as a mail', 1, (text) => text.replaceAll(/^/gm, '> ')),
  change('a giant', 1, (text, chance) =>
    chance.oneIn(giantOneIn)
      ? putAt(text, chance, chance.pick(['SL;', 'SL;P.LW.7.1-2;', '\u200B', 'A', '#', ' ', '>\n']).repeat(60_000))
      : text,
  ),
];
