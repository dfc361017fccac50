import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CONTROL_FILE, controlFile, MEMBERS_FILE, membersFile } from '../../scripts/sample-forecasts/build-samples.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { readSample } from './sample-file.ts';

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
/** 6 s on a quiet machine; others may be at work. */
const PATIENCE_MS = 120_000;

describe('sample forecasts', () => {
  it('control made again: the committed file, octet for octet', { timeout: PATIENCE_MS }, () => {
    expect(sha256(controlFile())).toBe(sha256(readSample(CONTROL_FILE)));
  });

  it.runIf(IS_LONG_RUN)('members made again: the committed file, octet for octet', { timeout: PATIENCE_MS }, () => {
    expect(sha256(membersFile())).toBe(sha256(readSample(MEMBERS_FILE)));
  });

  it('both files together: not above 8 MB', () => {
    expect(readSample(CONTROL_FILE).length + readSample(MEMBERS_FILE).length).toBeLessThanOrEqual(8e6);
  });
});
