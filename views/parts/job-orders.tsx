import type { JSX } from 'preact';
import type { JobOrders, LockButton } from '../../server/presenters/job-orders.ts';
import { VersionField } from './version-field.tsx';

/** What is fixed about a job of the plan, and the buttons that lock it and take the lock off. */
export function JobOrdersPart({ orders, headingId }: { orders: JobOrders; headingId: string }): JSX.Element {
  const { jobId, version, fixed, isLocked, lock } = orders;
  return (
    <div class="orders">
      {fixed.length > 0 && (
        <p class="fixed">
          <strong>Fixed by you:</strong> {fixed.join('; ')}.
        </p>
      )}
      <div class="order-buttons">
        {lock !== null && (
          <LockForm action={`/jobs/${jobId}/lock`} version={version} button={lock} describedBy={headingId} />
        )}
        {isLocked && (
          <form method="post" action={`/jobs/${jobId}/unlock`}>
            <VersionField version={version} />
            <button aria-describedby={headingId}>Take the lock off</button>
          </form>
        )}
        <a class="button" href={orders.hoursHref} aria-describedby={headingId}>
          Its hours
        </a>
      </div>
    </div>
  );
}

interface LockFormProps {
  readonly action: string;
  readonly version: string;
  readonly button: LockButton;
  readonly describedBy?: string;
}

/** One button that locks a job to a start, and to a handling where one holds for all of it. */
export function LockForm({ action, version, button, describedBy }: LockFormProps): JSX.Element {
  return (
    <form class="lock" method="post" action={action}>
      <VersionField version={version} />
      <input type="hidden" name="startUtc" value={button.startUtc} />
      <input type="hidden" name="handling" value={button.handlingId} />
      <button {...(describedBy === undefined ? {} : { 'aria-describedby': describedBy })}>{button.text}</button>
    </form>
  );
}
