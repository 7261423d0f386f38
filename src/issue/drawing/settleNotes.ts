import type { Callout, Note } from './drawing.ts';
import { lettering, type SettledText, settledText } from './settledDrawing.ts';
import { textWidthMm } from './textWidth.ts';

const { capitalMm, lineMm, tailMm } = lettering;
const sideMm = 0.5;

/** Breaks a text at its spaces into lines no wider than `mostMm`; undefined where a single word is too wide. */
export const brokenLines = (text: string, mostMm: number): readonly string[] | undefined => {
  const lines: string[] = [];
  for (const word of text.split(' ').filter((part) => part !== '')) {
    if (textWidthMm(word, capitalMm) > mostMm) return undefined;
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidthMm(longer, capitalMm) <= mostMm) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
};

/** Sets each note inside its width; one that finds no room there comes back as a callout to be led out above. */
export const settleNotes = <Part extends string>(
  notes: readonly Note<Part>[],
  ratio: number,
): { readonly texts: readonly SettledText<Part>[]; readonly ledOut: readonly Callout<Part>[] } => {
  const texts: SettledText<Part>[] = [];
  const ledOut: Callout<Part>[] = [];
  for (const note of notes) {
    const lines = brokenLines(note.text, note.widthMm / ratio - 2 * sideMm);
    const height = (lines?.length ?? 0) * lineMm;
    if (lines === undefined || height > note.heightMm / ratio) {
      if (note.isNeeded)
        ledOut.push({
          at: note.at,
          text: note.text,
          rank: note.rank,
          leader: 'dot',
          ...(note.part === undefined ? {} : { part: note.part }),
        });
      continue;
    }
    for (const [index, text] of lines.entries()) {
      const middle = note.at.y / ratio + height / 2 - (index + 0.5) * lineMm;
      texts.push(
        settledText(
          'note',
          { text, part: note.part },
          {
            x: note.at.x / ratio,
            baseline: middle - capitalMm / 2 + tailMm / 4,
            widthMm: textWidthMm(text, capitalMm),
          },
        ),
      );
    }
  }
  return { texts, ledOut };
};
