/** A whole number above 0 from the command line; throws what was expected. */
export function wholeOption(name: string, text: string): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value) || value < 1)
    throw new Error(`--${name} ${text}: expected a whole number from 1 on.`);
  return value;
}

/** What `read` makes of the command line; wrong use is said on standard error, exit code 2, and null. */
export function readOptions<T>(read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 2;
    return null;
  }
}
