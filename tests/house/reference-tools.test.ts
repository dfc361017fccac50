import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { referenceTool } from '../reference-tools.ts';

describe('referenceTool', () => {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-tools-'));

  beforeAll(() => {
    writeFileSync(join(folder, 'grib_ls'), '#!/bin/sh\n');
    chmodSync(join(folder, 'grib_ls'), 0o755);
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it('on the path: gives where', () => {
    expect(referenceTool('grib_ls', { PATH: `/nowhere:${folder}` })).toBe(join(folder, 'grib_ls'));
  });

  it('missing: null', () => {
    expect(referenceTool('grib_get', { PATH: folder })).toBeNull();
    expect(referenceTool('grib_get', { PATH: folder, CI: 'false' })).toBeNull();
  });

  it.each(['CI', 'SLATCH_REQUIRE_TOOLS'])('missing where %s is set: throws and names the package', (name) => {
    expect(() => referenceTool('grib_get', { PATH: folder, [name]: '1' })).toThrow('libeccodes-tools');
  });
});
