import type { Tone } from './displayList.ts';

/**
 * Colours of marks on the drawing. The set is that of Okabe and Ito, "Color Universal Design" (2002, revised 2008),
 * values from memory; the paper under them is white in the light and in the dark theme. A theme may override each by
 * a custom property, `--mark-front` for the tone `front`.
 */
const OKABE_ITO: Readonly<Record<Tone, string>> = {
  ink: '#1a1d1c',
  quiet: '#5d6562',
  accent: '#0072b2',
  front: '#0072b2',
  back: '#56b4e9',
  module: '#1a1d1c',
  station: '#009e73',
  filler: '#e69f00',
  'made-to-measure': '#d55e00',
  blocked: '#1a1d1c',
  opening: '#009e73',
  bay: '#cc79a7',
  scale: '#cc79a7',
  warning: '#d55e00',
};

export interface MarkPalette {
  readonly colour: (tone: Tone) => string;
  /** The paper as it looks: in the dark theme dimmed by the board behind it. */
  readonly paper: string;
  /** What dims the paper: the board's colour, and how much of it shows through, 0 to 1. */
  readonly board: string;
  readonly dimming: number;
  /** Family for labels, as in CSS. */
  readonly fontFamily: string;
}

/** Reads the palette from an element's custom properties, with the published colours where a property is absent. */
export function readMarkPalette(element: Element): MarkPalette {
  const style = getComputedStyle(element);
  const read = (name: string, fallback: string): string => style.getPropertyValue(name).trim() || fallback;
  const colours = Object.fromEntries(
    Object.entries(OKABE_ITO).map(([tone, fallback]) => [tone, read(`--mark-${tone}`, fallback)]),
  ) as Record<Tone, string>;
  const board = read('--board', '#d9dcda');
  const paper = read('--sheet-paper', '#ffffff');
  const opacity = Number(read('--sheet-opacity', '1'));
  const dimming = opacity >= 0 && opacity <= 1 ? 1 - opacity : 0;
  return {
    colour: (tone) => colours[tone],
    paper: dimming === 0 ? paper : `color-mix(in srgb, ${board} ${dimming * 100}%, ${paper})`,
    board,
    dimming,
    fontFamily: read('--font', "'Archivo Variable', system-ui, sans-serif"),
  };
}
