import type { Notice } from './notices.ts';

const notice = (title: string, text: string): Notice => ({ kind: 'message', title, text, problems: [], action: null });

/** Above a message that has just been written. */
export const writtenNotice = (number: number): Notice =>
  notice(
    'Written',
    `It is message ${number} of the list. Nothing has been sent: copy every part into the mail, the telephone or the terminal that sends it.`,
  );

/** Above a message that has just been taken over. */
export function takenNotice(number: number, act: 'log' | 'plan-with' | 'keep', count: number): Notice {
  const kept = `It is kept as message ${number} of the list`;
  if (act === 'keep') return notice('Kept', `${kept}.`);
  if (act === 'plan-with')
    return notice(
      'Taken over',
      `${kept}, and the passage is planned with it: see the forecast page for what it holds.`,
    );
  const written =
    count === 0
      ? 'the log had all of it already'
      : `${count === 1 ? 'one entry was' : `${count} entries were`} written into the log`;
  return notice('Taken over', `${kept}; ${written}.`);
}
