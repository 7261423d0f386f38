import type { DimensionChain, Drawing, Shape } from './drawing.ts';
import { drawingPen } from './drawingPen.ts';
import { lettering, type SettledText, settledText } from './settledDrawing.ts';
import { spreadLabels } from './spreadLabels.ts';
import { textWidthMm } from './textWidth.ts';

export interface SettledChains<Part extends string> {
  readonly rulings: readonly Shape<Part>[];
  readonly texts: readonly SettledText<Part>[];
  readonly bottom: number;
}

const { capitalMm, tailMm, gapMm, framePadMm } = lettering;
const overlineMm = 0.7;
const tickMm = 0.75;
const markShiftMm = 2.5;
const narrowShiftMm = 16;
/** A stop of a chain nearer than this to the next can't be told from it: their ticks become one. */
const sameStopMm = 0.12;

const thin = { weight: 'thin' } as const;
const medium = { weight: 'medium' } as const;

/** Lays dimension chains out under the floor line at y = 0, each below the one before (ISO 129-1: value above its line, oblique ticks). */
export const settleChains = <Part extends string>(
  drawing: Pick<Drawing<Part>, 'chains'>,
  ratio: number,
): SettledChains<Part> => {
  const shapes: Shape<Part>[] = [];
  const texts: SettledText<Part>[] = [];
  let bottom = -1.1;
  for (const [row, chain] of drawing.chains.entries()) {
    const settled = settleChain(chain, ratio, bottom, row === 0 ? 'length' : 'total');
    shapes.push(...settled.rulings);
    texts.push(...settled.texts);
    bottom = settled.bottom;
  }
  return { rulings: shapes, texts, bottom };
};

const settleChain = <Part extends string>(
  { links }: DimensionChain<Part>,
  ratio: number,
  top: number,
  role: 'length' | 'total',
): SettledChains<Part> => {
  if (links.length === 0) return { rulings: [], texts: [], bottom: top };
  const texts: SettledText<Part>[] = [];
  const places = links.map(({ fromMm, toMm }) => ({
    from: fromMm / ratio,
    to: toMm / ratio,
    centre: (fromMm + toMm) / 2 / ratio,
  }));

  let below = top;
  if (links.some(({ mark }) => mark !== undefined)) {
    const baseline = top - framePadMm - capitalMm;
    const marked = links.flatMap((link, index) =>
      link.mark === undefined ? [] : [{ link, place: places[index]! }],
    );
    const widths = marked.map(({ link }) => textWidthMm(link.mark ?? '', capitalMm) + 2 * framePadMm);
    const centres = spreadLabels(
      marked.map(({ link, place }, index) => ({
        centre: place.centre,
        width: widths[index]!,
        rank: link.rank,
      })),
      { gap: 0.4, mostShift: markShiftMm },
    );
    for (const [index, { link }] of marked.entries()) {
      const x = centres[index];
      if (x !== undefined)
        texts.push(
          settledText(
            'mark',
            { text: link.mark ?? '', part: link.part },
            { x, baseline, widthMm: widths[index]! },
            { isFramed: true },
          ),
        );
    }
    below = baseline - framePadMm - 0.5;
  }

  const baseline = below - capitalMm - 0.2;
  const lineY = baseline - overlineMm;
  const pen = drawingPen<Part>(0, { tag: 'dimension' });
  const written = links.map(({ text, quietText }) => {
    const whole = quietText ? `${text} ${quietText}` : text;
    return whole === '' ? 0 : textWidthMm(whole, capitalMm);
  });
  const narrow: number[] = [];
  for (const [index, link] of links.entries()) {
    const place = places[index]!;
    if (link.text === '') continue;
    if (written[index]! + gapMm <= place.to - place.from)
      texts.push(settledText(role, link, { x: place.centre, baseline, widthMm: written[index]! }));
    else narrow.push(index);
  }

  const stops = places.flatMap(({ from, to }) => [from, to]).sort((one, other) => one - other);
  const ticks = stops.filter((stop, index) => index === 0 || stop - stops[index - 1]! > sameStopMm);
  pen.line(
    [
      [stops[0]!, lineY],
      [stops.at(-1)!, lineY],
    ],
    thin,
  );
  for (const stop of ticks) {
    pen.line(
      [
        [stop, role === 'length' ? -0.7 : lineY + capitalMm + 1.6],
        [stop, lineY - 0.9],
      ],
      thin,
    );
    pen.line(
      [
        [stop - tickMm, lineY - tickMm],
        [stop + tickMm, lineY + tickMm],
      ],
      medium,
    );
  }

  if (narrow.length === 0) return { rulings: pen.shapes, texts, bottom: lineY - 1.2 };
  const underBaseline = lineY - 1.7 - capitalMm;
  const centres = spreadLabels(
    narrow.map((index) => ({
      centre: places[index]!.centre,
      width: written[index]!,
      rank: links[index]!.rank,
    })),
    { gap: gapMm, mostShift: narrowShiftMm },
  );
  for (const [position, index] of narrow.entries()) {
    const x = centres[position];
    if (x === undefined) continue;
    texts.push(settledText(role, links[index]!, { x, baseline: underBaseline, widthMm: written[index]! }));
    pen.line(
      [
        [places[index]!.centre, lineY],
        [x, underBaseline + capitalMm + 0.3],
      ],
      thin,
      'leader',
    );
  }
  return { rulings: pen.shapes, texts, bottom: underBaseline - tailMm - 0.5 };
};
