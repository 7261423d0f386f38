import type { Tone } from './displayList.ts';

/**
 * Colours of marks on the drawing. The set is that of Okabe and Ito, "Color Universal Design" (2002, revised 2008),
 * values from memory; the paper under them is white or nearly so in the light and in the dark theme. A theme may override each by
 * a custom property, `--mark-front` for the tone `front`.
 */
const OKABE_ITO: Readonly<Record<Tone, string>> = {
  ink: '#1a1d1c',
  paper: '#ffffff',
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
  /** The sheet's paper, which the theme may tint. */
  readonly paper: string;
  /** What lies around the sheet. */
  readonly desk: string;
  /** Family for labels, as in CSS. */
  readonly fontFamily: string;
  /** How much larger than usual the browser is asked to show text: 2 for 200 %. */
  readonly textScale: number;
}

/** The size of text that browsers start from, in CSS pixels. */
const USUAL_TEXT_PX = 16;

/** Reads the palette from an element's custom properties, with the published colours where a property is absent. */
export function readMarkPalette(element: Element): MarkPalette {
  const style = getComputedStyle(element);
  const read = (name: string, fallback: string): string => style.getPropertyValue(name).trim() || fallback;
  const colours = Object.fromEntries(
    Object.entries(OKABE_ITO).map(([tone, fallback]) => [tone, read(`--mark-${tone}`, fallback)]),
  ) as Record<Tone, string>;
  return {
    colour: (tone) => colours[tone],
    paper: read('--paper', '#ffffff'),
    desk: read('--desk', '#dedbd2'),
    fontFamily: style.fontFamily || 'system-ui, sans-serif',
    textScale:
      (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || USUAL_TEXT_PX) /
      USUAL_TEXT_PX,
  };
}
