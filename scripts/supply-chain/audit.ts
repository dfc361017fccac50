import { spawnSync } from 'node:child_process';
import { z } from 'zod';

/** Known vulnerabilities of the locked packages; `unknown` where the registry did not answer, which is not "none". */
export type Audit =
  | { readonly kind: 'answered'; readonly vulnerabilities: readonly string[] }
  | { readonly kind: 'unknown'; readonly why: string };

const auditAnswer = z.object({
  vulnerabilities: z
    .record(z.string(), z.object({ severity: z.string().default('severity not told'), range: z.string().default('') }))
    .optional(),
  message: z.string().optional(),
});

/** Asks the registry that npm is set to; needs the network. */
export function askForAudit(folder: string): Audit {
  const { stdout, error } = spawnSync('npm', ['audit', '--json', '--package-lock-only'], {
    cwd: folder,
    encoding: 'utf8',
  });
  return error === undefined ? auditOf(stdout) : { kind: 'unknown', why: error.message };
}

/** Reads what `npm audit --json` printed. */
export function auditOf(printed: string): Audit {
  const answer = answerOf(printed);
  if (answer?.vulnerabilities === undefined)
    return { kind: 'unknown', why: withoutAddress(answer?.message ?? 'npm printed no answer') };
  const vulnerabilities = Object.entries(answer.vulnerabilities).map(
    ([name, { severity, range }]) => `${name} ${range}: ${severity}`,
  );
  return { kind: 'answered', vulnerabilities };
}

function answerOf(printed: string): z.infer<typeof auditAnswer> | null {
  try {
    return auditAnswer.parse(JSON.parse(printed));
  } catch {
    return null;
  }
}

/** Which registry it is matters to nobody, and its address may hold a secret. */
const withoutAddress = (text: string): string => text.replaceAll(/https?:\S+/g, 'the registry');
