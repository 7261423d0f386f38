import type { ObstacleAnswer } from '../../src/access/checkWayIn.ts';
import type { MeasuredObstacle } from '../../src/access/wayInOfProject.ts';
import type { FigureName, SizeName } from '../../src/document/obstacleKinds.ts';
import type { ProjectAccess } from '../../src/quote/projectAccess.ts';
import type { PieceGroup, PieceVerdict } from '../../src/quote/wayInVerdicts.ts';
import { MINUS } from '../../src/units/digitGroups.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';

/** What each size is called beside its narrow field; `sizeWords` says it in full. */
export const sizeLabels: Readonly<Record<SizeName, string>> = {
  widthMm: 'Clear width',
  heightMm: 'Clear height',
  leafMm: 'Leaf takes',
  thresholdMm: 'Threshold',
  fromMm: 'Width before',
  toMm: 'Width after',
  fromLegMm: 'Length before',
  toLegMm: 'Length after',
  passageMm: 'Passage width',
  wallMm: 'Wall',
  doorWidthMm: 'Door width',
  doorHeightMm: 'Door height',
  carWidthMm: 'Car width',
  carDepthMm: 'Car depth',
  carHeightMm: 'Car height',
  landingMm: 'Landing',
  headroomMm: 'Headroom',
  wellMm: 'Between flights',
  depthMm: 'Clear depth',
};

/** What each figure is called, and what an empty field stands for. */
export const figureWords: Readonly<
  Record<FigureName, { readonly label: string; readonly emptyWords?: string }>
> = {
  angleDeg: { label: 'Turns by, °', emptyWords: '90' },
  ratedKg: { label: 'Rated load, kg' },
  landingTurnDeg: { label: 'On the landing' },
  pitchDeg: { label: 'Pitch, °', emptyWords: 'not given' },
  slopeDeg: { label: 'Slope, °', emptyWords: '0' },
};

/** Sizes that a plan shows, so that they can be picked on it; heights it does not. */
const heights: readonly SizeName[] = ['heightMm', 'thresholdMm', 'doorHeightMm', 'carHeightMm', 'headroomMm'];
export const isOnPlan = (name: SizeName): boolean => !heights.includes(name);

/** The sizes that an obstacle must have, in a line: `1 420 mm into 1 270 mm, 2 050 mm high`. */
export const sizesWords = ({ drawn, sizes }: MeasuredObstacle, unit: DisplayUnit): string => {
  const one = (name: SizeName) => {
    const size = sizes[name];
    return size ? formatLength(size.lengthMm, { unit }) : '?';
  };
  const by = (...names: readonly SizeName[]) =>
    names
      .map(one)
      .map((words, index) => (index < names.length - 1 ? words.replace(/\u00a0mm$/, '') : words))
      .join(' × ');
  switch (drawn.kind) {
    case 'turn':
      return `${one('fromMm')} into ${one('toMm')}, ${one('heightMm')} high`;
    case 'side-doorway':
      return `${by('widthMm', 'heightMm')} off ${one('passageMm')}`;
    case 'lift':
      return `door ${by('doorWidthMm', 'doorHeightMm')}, car ${by('carWidthMm', 'carDepthMm', 'carHeightMm')}`;
    case 'stair':
      return `${one('widthMm')} wide, landing ${one('landingMm')}, headroom ${one('headroomMm')}`;
    case 'height-limit':
      return `${one('heightMm')} high`;
    case 'set-down':
      return by('widthMm', 'depthMm');
    default:
      return by('widthMm', 'heightMm');
  }
};

const orientationWords = {
  upright: 'upright',
  'on-edge': 'on edge',
  'on-end': 'on end',
  tilted: 'tilted',
} as const;

const mannerWords = {
  straight: 'straight through',
  tilted: 'tilted in the opening',
  swung: 'swung round',
  slid: 'slid across without turning',
  pitched: 'with one end raised',
  placed: 'set down square',
  diagonal: 'set on the diagonal',
} as const;

const partWords = { door: 'its door', car: 'its car', flight: 'its flight', landing: 'its landing' } as const;

/** A clearance with its sign: `+95 mm`, `−160 mm`. */
export const marginWords = (marginMm: number, unit: DisplayUnit): string => {
  const size = formatLength(Math.abs(marginMm), { unit });
  return `${marginMm < 0 ? MINUS : '+'}${size}`;
};

const doubtSentences: Readonly<Record<NonNullable<ObstacleAnswer['doubt']>, string>> = {
  sizes: 'The drawing is not sure enough: measure on site.',
  movement: 'It must be turned between the door and the car, which is not proved: try it with a template.',
  'outer-corner': 'It may yet be backed into the outer corner, if that is deep enough: look at it on site.',
};

/** One cell of the table as a sentence: whether, by how much, held how. */
export const answerSentence = (
  pieceName: string,
  place: string,
  answer: ObstacleAnswer,
  unit: DisplayUnit,
): string => {
  const at = answer.part ? `${place} (${partWords[answer.part]})` : place;
  const held = `${orientationWords[answer.orientation]}, ${mannerWords[answer.manner]}`;
  if (answer.spareKg !== undefined && answer.spareKg < 0)
    return `${pieceName} is ${Math.ceil(-answer.spareKg)} kg heavier than ${at} may carry.`;
  const size = formatLength(Math.abs(answer.marginMm), { unit });
  const site = answer.doubt === undefined ? '' : ` ${doubtSentences[answer.doubt]}`;
  return answer.passes
    ? `${pieceName} passes ${at} with ${size} to spare: ${held}.${site}`
    : `${pieceName} does not pass ${at}: ${size} too large even at best, ${held}.${site}`;
};

export const verdictWords: Readonly<Record<PieceVerdict, string>> = {
  passes: 'passes',
  'measure-on-site': 'measure on site',
  'assemble-on-site': 'assemble on site',
  'in-parts': 'made to measure in parts',
};

/** What leaves a piece to the site, and at which obstacle. */
const unsureWords = ({ obstacles, limitedByName }: PieceGroup['answer']): string => {
  const open = obstacles.filter(({ doubt }) => doubt !== undefined);
  const bySizes = open.find(({ doubt }) => doubt === 'sizes');
  const [first] = open;
  if (bySizes === undefined && first?.doubt === 'movement')
    return `turned between the door and the car of ${first.name ?? 'the lift'}: try it with a template`;
  if (bySizes === undefined && first?.doubt === 'outer-corner')
    return `only by backing into the outer corner of ${first.name ?? 'the turn'}: look at it on site`;
  const at = bySizes?.name ?? limitedByName;
  return `within the uncertainty${at ? ` at ${at}` : ''}: measure on site`;
};

/** What is done about a piece that does not simply pass. */
export const remedyWords = ({ verdict, parts, answer }: PieceGroup, unit: DisplayUnit): string => {
  const by = answer.limitedByName ? ` by ${answer.limitedByName}` : '';
  switch (verdict) {
    case 'passes':
      return 'passes';
    case 'measure-on-site':
      return unsureWords(answer);
    case 'assemble-on-site':
      return `stopped${by}: passes with frames off, assemble on site`;
    case 'in-parts':
      return parts === null
        ? `stopped${by}, frames on or off: made to measure in parts`
        : `stopped${by}, frames on or off: made to measure in ${parts} parts, up to ${formatLength(Math.floor(answer.longestMm), { unit })} packed`;
  }
};

const counted = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`;

/** How many pieces have a verdict. */
export const countOf = (groups: readonly PieceGroup[], ...verdicts: readonly PieceVerdict[]): number =>
  groups.reduce((sum, { verdict, marks }) => sum + (verdicts.includes(verdict) ? marks.length : 0), 0);

/** The whole answer in a few words, for the head of the step. */
export const shortAccessWords = (access: ProjectAccess | null): string => {
  if (!access) return 'not described';
  const { groups, pieces, wayIn } = access;
  if (wayIn.measured.length === 0) return 'no obstacles yet';
  const stopped = countOf(groups, 'assemble-on-site', 'in-parts');
  const unsure = countOf(groups, 'measure-on-site');
  if (wayIn.measured.some(({ fault }) => fault !== null)) return 'cannot be judged yet';
  if (stopped > 0) return `${counted(stopped, 'piece', 'pieces')} stopped`;
  if (unsure > 0) return `${counted(unsure, 'piece', 'pieces')} to measure`;
  return pieces.length === 0
    ? counted(wayIn.measured.length, 'obstacle', 'obstacles')
    : `all ${pieces.length} pass`;
};

/** The same as a sentence. */
export const accessSentence = ({ groups, pieces }: ProjectAccess): string => {
  if (pieces.length === 0) return 'No piece is fitted yet. The obstacles are judged as soon as one is.';
  const stopped = countOf(groups, 'assemble-on-site', 'in-parts');
  const unsure = countOf(groups, 'measure-on-site');
  if (stopped === 0 && unsure === 0)
    return pieces.length === 1 ? 'The piece passes.' : `All ${pieces.length} pieces pass.`;
  const parts = [];
  if (stopped > 0)
    parts.push(
      `${stopped} of ${counted(pieces.length, 'piece', 'pieces')} ${stopped === 1 ? 'does' : 'do'} not pass whole`,
    );
  if (unsure > 0) parts.push(`only the site can tell for ${unsure}`);
  return `${parts.join('; ').replace(/^./, (letter) => letter.toUpperCase())}.`;
};
