import type { Archive } from '../archive/openArchive.ts';

const backupEveryMs = 30 * 60 * 1000;

/**
 * Backs the archive up now and every half hour; a backup that fails is told, and the work goes on. Gives back what ends
 * it, once the backup under way is done.
 *
 * @param warn is told in a sentence when a backup could not be made
 */
export const keepBackingUp = (archive: Archive, warn: (line: string) => void): (() => Promise<void>) => {
  let underWay: Promise<void> = Promise.resolve();
  const backUp = async (): Promise<void> => {
    if (archive.health().state !== 'sound') return;
    try {
      await archive.backUp();
    } catch (error) {
      warn(`The archive could not be backed up: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const next = (): void => {
    underWay = underWay.then(backUp);
  };
  next();
  const timer = setInterval(next, backupEveryMs).unref();
  return () => {
    clearInterval(timer);
    return underWay;
  };
};
