import type { JSX } from 'preact';

/** Stands in every form that changes the passage: the state of it that the form was made from. */
export const VersionField = ({ version }: { version: string }): JSX.Element => (
  <input type="hidden" name="version" value={version} />
);
