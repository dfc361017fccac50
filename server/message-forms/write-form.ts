import type { MessageKind } from '../../lib/message/index.ts';
import { PART_LIMITS } from '../../lib/message/index.ts';
import { okUnless, type Problem, type Result } from '../../lib/result/index.ts';

/** Texts of the form that writes a message, by the names of its inputs. */
export interface WriteTexts {
  readonly kind: string;
  /** `sms`, `satellite`, or `other`: then `limit` says it. */
  readonly length: string;
  readonly limit: string;
  readonly sender: string;
  readonly counter: string;
  readonly detail: string;
  readonly hours: string;
  readonly parts: string;
  readonly observations: string;
  readonly note: string;
}

/** The names of the inputs. */
export const WRITE_NAMES = [
  'kind',
  'length',
  'limit',
  'sender',
  'counter',
  'detail',
  'hours',
  'parts',
  'observations',
  'note',
] as const;

export const NOTHING_WRITTEN: WriteTexts = {
  kind: 'plan',
  length: 'satellite',
  limit: '',
  sender: '',
  counter: '',
  detail: 'full',
  hours: '48',
  parts: '',
  observations: '1',
  note: '',
};

/** A message that is asked for. */
export interface WriteAsked {
  readonly kind: MessageKind;
  readonly limitCount: number;
  readonly sender: string;
  /** null: the next one. */
  readonly counterNumber: number | null;
  readonly detail: 'full' | 'short';
  readonly aheadH: number;
  /** null: by the hours. */
  readonly mostPartCount: number | null;
  readonly observationCount: number;
  readonly note: string;
}

/** What a form sent. */
export const writeTextsOf = (text: (name: (typeof WRITE_NAMES)[number]) => string): WriteTexts => ({
  kind: text('kind'),
  length: text('length'),
  limit: text('limit'),
  sender: text('sender'),
  counter: text('counter'),
  detail: text('detail'),
  hours: text('hours'),
  parts: text('parts'),
  observations: text('observations'),
  note: text('note'),
});

/** The message asked for, or every problem, `where` being the name of its input. Inputs of other kinds are left alone. */
export function readWriteForm(texts: WriteTexts): Result<WriteAsked> {
  const problems: Problem[] = [];
  const whole = (where: keyof WriteTexts, range: Range): number => {
    const value = Number(texts[where].trim());
    if (texts[where].trim() !== '' && Number.isInteger(value) && value >= range.least && value <= range.most)
      return value;
    problems.push(noNumber(where, texts[where], range));
    return range.least;
  };
  const orNull = (where: keyof WriteTexts, range: Range): number | null =>
    texts[where].trim() === '' ? null : whole(where, range);
  const kind = KINDS.find((one) => one === texts.kind);
  if (kind === undefined) problems.push(noKind(texts.kind));
  const sender = texts.sender.trim().toUpperCase();
  if (!/^[A-Z0-9]{1,4}$/.test(sender)) problems.push(noSender(texts.sender));
  const limitCount =
    texts.length === 'sms'
      ? PART_LIMITS.sms
      : texts.length === 'satellite'
        ? PART_LIMITS.satellite
        : whole('limit', { least: 80, most: 10_000, what: 'a length of parts', such: '340' });
  const asked: WriteAsked = {
    kind: kind ?? 'plan',
    limitCount,
    sender,
    counterNumber: orNull('counter', { least: 1, most: 999_999, what: 'a counter', such: '12' }),
    detail: texts.detail === 'short' ? 'short' : 'full',
    aheadH: kind === 'digest' ? whole('hours', { least: 3, most: 240, what: 'a number of hours', such: '48' }) : 48,
    mostPartCount:
      kind === 'digest' ? orNull('parts', { least: 1, most: 99, what: 'a number of parts', such: '2' }) : null,
    observationCount:
      kind === 'report'
        ? whole('observations', { least: 0, most: 50, what: 'a number of observations', such: '8' })
        : 1,
    note: texts.note.trim(),
  };
  return okUnless(problems, () => asked);
}

const KINDS = ['plan', 'digest', 'report'] as const satisfies readonly MessageKind[];

interface Range {
  readonly least: number;
  readonly most: number;
  readonly what: string;
  readonly such: string;
}

const noNumber = (where: string, text: string, { least, most, what, such }: Range): Problem => ({
  code: 'message.number',
  where,
  what: text.trim() === '' ? 'It is missing.' : `"${text}" is not ${what}.`,
  expected: `a whole number from ${least} to ${most}`,
  remedy: `Write one, such as ${such}.`,
});

const noKind = (text: string): Problem => ({
  code: 'message.kind',
  where: 'kind',
  what: text === '' ? 'No kind is chosen.' : `"${text}" is no kind of message.`,
  expected: 'a plan, a digest or a report',
  remedy: 'Choose one.',
});

const noSender = (text: string): Problem => ({
  code: 'message.sender',
  where: 'sender',
  what: text.trim() === '' ? 'It does not say who sends it.' : `"${text}" is no sender.`,
  expected: '1 to 4 letters and digits, such as LW',
  remedy: 'Write your own: the other side counts your messages by it.',
});
