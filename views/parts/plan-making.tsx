import type { JSX } from 'preact';

/** What is said while a new plan is made; it asks again by itself, so the page around it stays as it is. */
export function MakingLine({ text }: { text: string }): JSX.Element {
  return (
    <p id="making" hx-get="/plan/making" hx-trigger="load delay:1s" hx-target="#making" hx-swap="outerHTML">
      {text}
    </p>
  );
}

/** The new plan is there, or none came: what is on the page is older than what stands now. */
export function MadeLine({ text }: { text: string }): JSX.Element {
  return (
    <p id="making" class="is-there" role="status">
      {text} <a href="">Load the page again.</a>
    </p>
  );
}
