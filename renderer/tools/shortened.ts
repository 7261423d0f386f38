/** A name cut to so many characters where it stands among other words, so that these stay in sight. */
export const shortened = (name: string, most = 32): string => {
  const letters = [...name];
  return letters.length <= most
    ? name
    : `${letters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`;
};
