/**
 * A list of sums as `sha256sum` of GNU coreutils writes it and `sha256sum -c` checks it: the sum, two spaces (text mode),
 * the name, a line feed (GNU coreutils manual, "md5sum invocation" and "sha2 utilities"). Names that would need that
 * program's escapes, or that lead out of the folder, are no names of ours: throws a RangeError.
 */
export const sha256Sums = (files: readonly { readonly path: string; readonly sha256: string }[]): string =>
  files
    .map(({ path, sha256 }) => {
      if (!/^[0-9a-f]{64}$/.test(sha256)) throw new RangeError(`"${sha256}" is no SHA-256`);
      const hasControl = [...path].some((letter) => letter < ' ');
      if (
        path === '' ||
        hasControl ||
        path.includes('\\') ||
        path.startsWith('/') ||
        path.split('/').includes('..')
      )
        throw new RangeError(`"${path}" is no name of a file in an issue`);
      return `${sha256}  ${path}\n`;
    })
    .join('');
