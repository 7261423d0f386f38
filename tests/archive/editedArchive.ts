import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type Archive, type ArchiveOptions, openArchive } from '../../src/archive/openArchive.ts';
import { fixedNow } from './editedSteps.ts';

/** A folder of its own for one test, gone afterwards. */
export const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-archive-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

/** Opens an archive and closes it after the test. */
export const openForTest = async (
  folder: string,
  options: Partial<ArchiveOptions> = {},
): Promise<Archive> => {
  const archive = await openArchive({ folder, now: fixedNow, ...options });
  onTestFinished(archive.close);
  return archive;
};
