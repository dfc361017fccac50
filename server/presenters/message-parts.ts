import { backupLine, type Message, PART_LIMITS, smsLength } from '../../lib/message/index.ts';

/** A text to be sent, and how much of what one sending takes it fills. */
export interface PartView {
  readonly label: string;
  readonly text: string;
  /** `152 of 160 septets` */
  readonly length: string;
  /** 0 to 1. */
  readonly filledShare: number;
  readonly unitCount: number;
  readonly unit: 'septets' | 'octets' | 'characters';
}

/** The parts of a message, in order. `limitCount` null: they came from elsewhere, and only their length is told. */
export function partViews(text: string, limitCount: number | null): readonly PartView[] {
  const parts = text.split('\n');
  return parts.map((part, index) =>
    viewOf(part, parts.length === 1 ? 'The only part' : `Part ${index + 1} of ${parts.length}`, limitCount),
  );
}

/** The plain line for when the key to the fields is lost. */
export const backupView = (message: Message): PartView => viewOf(backupLine(message), 'Plain line', PART_LIMITS.sms);

function viewOf(text: string, label: string, limitCount: number | null): PartView {
  const { unitCount } = smsLength(text);
  if (limitCount === null)
    return { label, text, length: `${unitCount} characters`, filledShare: 0, unitCount, unit: 'characters' };
  const unit = limitCount <= PART_LIMITS.sms ? 'septets' : 'octets';
  return {
    label,
    text,
    length: `${unitCount} of ${limitCount} ${unit}`,
    filledShare: Math.min(1, unitCount / limitCount),
    unitCount,
    unit,
  };
}
