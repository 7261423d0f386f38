import { standardSheet } from '../sheet/sheetSize.ts';
import type { TextRun } from '../sheet/textRun.ts';

/** A scale as written on a sheet: a claim, not yet evidence of the sheet in hand. */
export interface ScaleNote {
  readonly text: string;
  /** Real mm per paper mm on the declared sheet; absent where the note says "not to scale". */
  readonly ratio?: number;
  /** Half a step of the last digit written, relative. */
  readonly rounding: number;
  /** The sheet that the note was made for, where it says so: `A1` in `1:50 @ A1`. */
  readonly declaredSheet?: string;
  /** Whether it stands alone or after a word for scale, and does not end the title of a detail. */
  readonly isOfSheet: boolean;
}

/** A note and where it stands. */
export interface PlacedNote {
  readonly note: ScaleNote;
  readonly run: TextRun;
}

/** Words for scale, in the languages that plans come in. */
const SCALE_WORD =
  /(?<!\p{L})(?:scales?|scala|[ée]chelle|escala|ma(?:ß|ss)stab|schaal|skala|m[åa]lestok|m[ée]retar[áa]ny|sc)(?!\p{L})/iu;

/** Words that make `1:50` a slope, a fall, a mix or another ratio. */
const NOT_A_SCALE =
  /(?<!\p{L})(?:slopes?|falls?|ramps?|gradient|grad|pitch|crossfall|camber|pente|pendenza|pend|pendiente|gef[äa]lle|neigung|rampe|rampa|mix|mortar|cement|concrete|grout|screed|plaster|ratio|class|stairs?|batter)(?!\p{L})/iu;

const SHEET =
  /(?:@|\bat\b|\bon\b|\(|\boriginal\b|\bformat[eo]?\b|\bsize\b)[\s:.]*((?:A|B)[0-4]|ANSI\s?[A-E]|ARCH\s?[A-E][123]?)\b/i;

/**
 * Reads a text as a scale note: `1:50`, `1 : 50 @ A1`, `SCALE 1:79.90`, `Scale 1/50`, `1/4" = 1'-0"`, `1" = 20'`, NTS.
 *
 * Answers null for everything else, among it slopes and mixes that are written alike.
 *
 * @example readScaleNote('1/4" = 1\'-0"')?.ratio // 48
 * @example readScaleNote('1:50 SLOPE') // null
 */
export const readScaleNote = (raw: string): ScaleNote | null => {
  if (raw.length > 80) return null;
  const text = raw
    .replace(/[″“”]|''|[′’]{2}/g, '"')
    .replace(/[′‘’]/g, "'")
    .replace(/[∶：]/g, ':')
    .replace(/½/g, ' 1/2')
    .replace(/¼/g, ' 1/4')
    .replace(/¾/g, ' 3/4')
    .replace(/⅛/g, ' 1/8')
    .replace(/⅜/g, ' 3/8')
    .replace(/⅝/g, ' 5/8')
    .replace(/⅞/g, ' 7/8')
    .replace(/\s+/g, ' ')
    .trim();
  if (NOT_A_SCALE.test(text)) return null;
  const declared = SHEET.exec(text)?.[1];
  const sheet = declared ? standardSheet(declared.replace(/(ANSI|ARCH)\s?/i, '$1 '))?.name : undefined;
  const found = readRatio(text) ?? readEquation(text);
  if (found) return { text: raw.trim(), ...found, ...(sheet ? { declaredSheet: sheet } : {}) };
  if (/^(?:scale\s*[:=-]?\s*)?(?:n\.?t\.?s\.?|not to scale)$/i.test(text))
    return { text: raw.trim(), rounding: 0, isOfSheet: true };
  return null;
};

type FoundRatio = Pick<ScaleNote, 'rounding' | 'isOfSheet'> & { readonly ratio: number };

const readRatio = (text: string): FoundRatio | null => {
  const match =
    /(?:^|[^\d:.,/])1\s*([:/])\s*(\d{1,3}(?:[ ,]\d{3})+|\d+(?:[.,]\d+)?)(?![\d:/"']|\s*["'])/.exec(text);
  if (!match) return null;
  const [whole, mark, number = ''] = match;
  const rest = `${text.slice(0, match.index)} ${text.slice(match.index + whole.length)}`;
  const hasWord = SCALE_WORD.test(rest) || /\bM\.?\s*$/.test(text.slice(0, match.index + 1));
  // Without the word, the ratio has to stand alone, or with its sheet, or end a title such as "GROUND FLOOR PLAN 1:100".
  const bare = rest
    .replace(SHEET, ' ')
    .replace(/[()[\]@.,;:–-]/g, ' ')
    .trim();
  const isTitle =
    /^[\p{L}\d .&/+-]{3,60}$/u.test(bare) &&
    match.index > 0 &&
    /\b(?:plan|detail|section|elevation|view|layout|floor|pianta|grundriss|plan)\b/i.test(bare);
  if (mark === '/' && !hasWord) return null;
  if (!hasWord && bare !== '' && !isTitle) return null;
  const digits = /[ ,]\d{3}(?:\D|$)/.test(number) ? number.replace(/[ ,]/g, '') : number.replace(',', '.');
  const ratio = Number(digits);
  if (!(ratio >= 0.1 && ratio <= 100_000)) return null;
  const step = 10 ** -(digits.split('.')[1]?.length ?? 0);
  const isOfSheet = bare.replace(SCALE_WORD, '').trim() === '';
  return { ratio, rounding: digits.includes('.') ? step / 2 / ratio : 0, isOfSheet };
};

/** A quantity in feet and inches, or in one unit, as one side of an equation. */
const QUANTITY = `(?:(\\d+(?:\\.\\d+)?)\\s*')?\\s*-?\\s*(?:(\\d+(?:\\.\\d+)?)?(?:[ -]?(\\d+)\\/(\\d+))?\\s*(?:"|in\\b\\.?))?`;
const EQUATION = new RegExp(`^(.*?)(?:^|\\s)${QUANTITY}\\s*=\\s*${QUANTITY}(.*)$`, 'i');
const METRIC_EQUATION = /(?:^|\s)(\d+(?:[.,]\d+)?)\s*(mm|cm|m)\s*=\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|m)\b/i;

const readEquation = (text: string): FoundRatio | null => {
  const metric = METRIC_EQUATION.exec(text);
  if (metric) {
    const mm: Readonly<Record<string, number>> = { mm: 1, cm: 10, m: 1000 };
    const side = (number: string, unit: string): number =>
      Number(number.replace(',', '.')) * mm[unit.toLowerCase()]!;
    const ratio = side(metric[3]!, metric[4]!) / side(metric[1]!, metric[2]!);
    return ratio > 0 && Number.isFinite(ratio) ? { ratio, rounding: 0, isOfSheet: true } : null;
  }
  const match = EQUATION.exec(text);
  if (!match) return null;
  const before = match[1]!.replace(/[:=.\s-]+$/, '').trim();
  if (before !== '' && !SCALE_WORD.test(before) && !/\b(?:plan|detail|section|elevation)\b/i.test(before))
    return null;
  const paper = inchesOf(match[2], match[3], match[4], match[5]);
  const real = inchesOf(match[6], match[7], match[8], match[9]);
  if (!(paper > 0) || !(real > paper)) return null;
  return { ratio: real / paper, rounding: 0, isOfSheet: before === '' || SCALE_WORD.test(before) };
};

const inchesOf = (feet?: string, whole?: string, upper?: string, lower?: string): number =>
  Number(feet ?? 0) * 12 + Number(whole ?? 0) + (upper === undefined ? 0 : Number(upper) / Number(lower));

/** Several ratios in one text, each for its sheet: `1:50 @ A1, 1:100 @ A3`. */
const RATIO_FOR_SHEET = /1\s*[:/]\s*\d+(?:[.,]\d+)?\s*(?:@|at|on|\(|-)\s*(?:A|B)[0-4]\)?/gi;

const notesOf = (raw: string): readonly ScaleNote[] => {
  const pairs = raw.length <= 80 ? (raw.match(RATIO_FOR_SHEET) ?? []) : [];
  const texts = pairs.length > 1 && !NOT_A_SCALE.test(raw) ? pairs : [raw];
  return texts.flatMap((text) => readScaleNote(text) ?? []);
};

/** Finds the scale notes of a sheet, those beside a word for a slope left out. */
export const findScaleNotes = (runs: readonly TextRun[]): readonly PlacedNote[] => {
  const notes: PlacedNote[] = [];
  for (const run of runs) {
    // What a scanner's reader believes to have seen proves no scale.
    if (run.isInvisible) continue;
    const found = notesOf(run.text);
    if (found.length === 0) continue;
    const isSlope = runs.some(
      (other) => other !== run && NOT_A_SCALE.test(other.text) && isBeside(run, other),
    );
    if (!isSlope) notes.push(...found.map((note) => ({ note, run })));
  }
  return notes;
};

/**
 * The sheet for which a drawing declares to be made: `FORMAT A1`, or that word with `A1` beside it. Where notes give a
 * scale for each of several sheets, the one in hand.
 *
 * @param actual the name of the sheet in hand.
 */
export const declaredSheet = (
  runs: readonly TextRun[],
  notes: readonly PlacedNote[],
  actual?: string,
): string | undefined => {
  const declared = notes.flatMap(({ note }) => note.declaredSheet ?? []);
  const fromNote = declared.find((name) => name === actual) ?? declared[0];
  if (fromNote) return fromNote;
  for (const run of runs) {
    if (!/\b(?:sheet|paper|original|page)?\s*(?:size|format|formato|formaat|blattformat)\b/i.test(run.text))
      continue;
    const inText = SHEET.exec(run.text)?.[1];
    if (inText) return standardSheet(inText)?.name;
    const value = runs.find(
      (other) => /^(?:[AB][0-4]|ANSI [A-E]|ARCH [A-E])$/i.test(other.text.trim()) && isBeside(run, other),
    );
    if (value) return standardSheet(value.text)?.name;
  }
  return undefined;
};

/** Whether another text stands within a few letters of a text's ends, on its line or the next. */
const isBeside = (run: TextRun, other: TextRun): boolean => {
  const cosine = Math.cos(run.angleRad);
  const sine = Math.sin(run.angleRad);
  const dx = other.origin.x - run.origin.x;
  const dy = other.origin.y - run.origin.y;
  const along = dx * cosine + dy * sine;
  const up = Math.abs(dy * cosine - dx * sine);
  const gap = along > 0 ? along - run.width : -along - other.width;
  return up < 1.8 * run.size && gap < 4 * run.size;
};
