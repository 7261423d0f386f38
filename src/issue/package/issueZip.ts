import { type Zippable, zipSync } from 'fflate';

/**
 * ZIP keeps local times without a zone. Noon of the day of issue in whatever zone this runs reads the same everywhere,
 * and no clock is ever put forward past it.
 */
const noonOf = (issuedAt: string): Date => {
  const [year, month, day] = issuedAt.slice(0, 10).split('-').map(Number);
  if (year === undefined || month === undefined || day === undefined || !(year >= 1980 && year < 2100))
    throw new RangeError(`ZIP knows no day "${issuedAt}"`);
  return new Date(year, month - 1, day, 12);
};

/**
 * Files in one folder as a ZIP archive (PKWARE APPNOTE). They are stored as they are, so that the bytes depend on no
 * compressor's version: the same files of the same day always give the same archive.
 */
export const issueZip = (
  folder: string,
  files: readonly { readonly path: string; readonly bytes: Uint8Array }[],
  issuedAt: string,
): Uint8Array => {
  const mtime = noonOf(issuedAt);
  for (const { path } of files)
    if (/^\.{0,2}$|[/\\\0]/.test(path)) throw new RangeError(`"${path}" is no name of a file in a folder`);
  const entries: Zippable = Object.fromEntries(
    files.map(({ path, bytes }) => [`${folder}/${path}`, [bytes, { level: 0, mtime }] as const]),
  );
  if (Object.keys(entries).length !== files.length)
    throw new RangeError('Two files of an issue have one name');
  return zipSync(entries);
};
