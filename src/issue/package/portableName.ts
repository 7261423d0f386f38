/** Names that Windows keeps for devices, whatever ending follows. */
const deviceNames = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$)(\.|$)/i;
/** Control characters, halves of characters, those that turn the direction of writing, and those that Windows or a path gives a meaning. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is sought
const forbidden = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069\p{Cs}<>:"/\\|?*]/gu;
const charactersMost = 120;

/**
 * A name that comes out of an archive as one that every file system takes as a file within a folder: no part of it leads
 * elsewhere, names a device, or shows as something else than it is. Names that this program gives stay as they are.
 *
 * Sources: "Naming Files, Paths, and Namespaces", Microsoft Learn (from memory); Unicode Bidirectional Algorithm (UAX #9)
 * for the characters that turn the direction.
 */
export const portableName = (name: string): string => {
  const plain = name
    .replace(forbidden, '-')
    .replace(/[. ]+$/, '')
    .replace(/^[ ]+/, '');
  const named = /^\.*$/.test(plain) ? 'file' : deviceNames.test(plain) ? `-${plain}` : plain;
  const letters = [...named];
  if (letters.length <= charactersMost) return named;
  const ending = /\.[A-Za-z0-9]{1,8}$/.exec(named)?.[0] ?? '';
  return `${letters.slice(0, charactersMost - ending.length).join('')}${ending}`;
};
