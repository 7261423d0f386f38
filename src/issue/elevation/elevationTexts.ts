import type { RunZone } from '../../measure/zonesOfRun.ts';
import { verdictWord } from '../../quote/schedule.ts';
import { nameOfWanted } from '../../stock/nameOfWanted.ts';
import { formatAngle } from '../../units/angle.ts';
import { formatLength } from '../../units/formatLength.ts';
import { datumLetter } from '../datumLetter.ts';
import type { Callout, Note } from '../drawing/drawing.ts';
import type { PartName } from '../fitOnPlan.ts';
import { zoneTitle } from '../zoneTitle.ts';
import type { DevelopedRun } from './developedRun.ts';
import type { ElevationBuild } from './elevationBuild.ts';
import { furtherCallouts } from './elevationCallouts.ts';
import { drawnLength } from './elevationChains.ts';
import type { ElevationInput } from './elevationInput.ts';
import type { Span } from './spansOf.ts';

/** Where a name is written in a gap or a panel: between feet and top, clear of both, mm. */
const clearMm = 30;

/** From where the drawing is seen, and how its lengths are written. */
export const captionOf = ({ run, unit, problem, alternative, range }: ElevationInput): string =>
  [
    'seen from the working side',
    `lengths in ${unit === 'mm' ? 'millimetres' : 'feet and inches'}`,
    ...(run.levels ? ['heights from the datum'] : []),
    ...(problem?.wanted?.length ? ['triangles: stations wanted'] : []),
    ...(alternative ? [] : ['not fitted: no pieces']),
    ...(alternative && range.servicesGapMm > 0
      ? [`${formatLength(range.servicesGapMm, { unit })} clear behind the frames for services`]
      : []),
  ].join('; ');

/** The piece that answers a wanted station. */
export const placedAs = ({ alternative }: ElevationInput, wanted: string): PartName | undefined => {
  const index = alternative?.pieces.findIndex((piece) => piece.wanted === wanted) ?? -1;
  return index < 0 ? undefined : `piece:${index}`;
};

/** The mark of the piece whose side closes a corner that one straight runs through. */
const throughMark = ({ alternative, marks }: ElevationInput, corner: number): string | undefined => {
  const treatment = alternative?.corners[corner]?.treatment;
  if (treatment !== 'first-through' && treatment !== 'second-through') return undefined;
  const straight = treatment === 'first-through' ? corner : corner + 1;
  const along = (alternative?.pieces ?? [])
    .map((piece, index) => ({ piece, index }))
    .filter(({ piece }) => piece.straight === straight && piece.host === undefined)
    .sort((one, other) => one.piece.fromMm - other.piece.fromMm);
  const nearest = treatment === 'first-through' ? along.at(-1) : along[0];
  return nearest && marks?.pieces[nearest.index];
};

const cornerWord = (input: ElevationInput, corner: number): string | undefined => {
  if (input.alternative?.corners[corner]?.treatment === 'corner-unit') return 'Corner unit';
  const mark = throughMark(input, corner);
  return mark && `Side of ${mark}`;
};

/** What is written in a zone: its name, with the height that a bay needs or a low section has. */
const zoneNote = (zone: RunZone, { unit, range }: ElevationInput): string => {
  const title = zoneTitle(zone);
  const heightMm = zone.clearance?.heightMm ?? 0;
  if (zone.kind === 'bay' && heightMm > 0)
    return `${title}, ${drawnLength(zone.toMm - zone.fromMm, unit)} × ${drawnLength(heightMm, unit)} high`;
  if (zone.kind === 'low')
    return `${title}, top ${drawnLength(zone.topHeightMm ?? range.heights.lowSectionTopMm, unit)}`;
  return title;
};

/** The names that stand in the drawing itself: of zones, and of what closes a corner. */
export const notesOf = (
  input: ElevationInput,
  spans: readonly Span[],
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Note<PartName>[] =>
  spans.flatMap((span): Note<PartName>[] => {
    const { left, right } = developed.stretch(span);
    const within = {
      at: { x: (left + right) / 2, y: (build.feet + build.underTop) / 2 },
      widthMm: right - left,
      heightMm: build.underTop - build.feet - 2 * clearMm,
    };
    if (span.kind === 'opening' || span.kind === 'blocked' || span.kind === 'bay' || span.kind === 'low') {
      const zone = input.zones[span.index];
      const text = zone ? zoneNote(zone, input) : '';
      return zone ? [{ ...within, text, part: `zone:${zone.id}`, rank: 7, isNeeded: true }] : [];
    }
    const text = span.kind === 'corner' ? cornerWord(input, span.index) : undefined;
    return text ? [{ ...within, text, part: `corner:${span.index}`, rank: 3, isNeeded: false }] : [];
  });

/** What is told above the drawing: leftovers, what a host carries, corners, stations that found no place. */
export const calloutsOf = (
  input: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Callout<PartName>[] => {
  const { alternative, marks, unit, range, corners, problem } = input;
  const middleOf = (span: Parameters<DevelopedRun['stretch']>[0]) => {
    const { left, right } = developed.stretch(span);
    return (left + right) / 2;
  };
  const marked = (mark: string | undefined) => (mark === undefined ? {} : { mark });

  const leftovers = (alternative?.leftovers ?? []).map((leftover, index): Callout<PartName> => {
    const width = formatLength(leftover.widthMm, { unit });
    return {
      at: { x: middleOf(leftover), y: build.top - 150 },
      ...marked(marks?.leftovers[index]),
      text: `${verdictWord(leftover.verdict)} ${width}${leftover.confirmed ? '' : ', measure on site'}`,
      part: `leftover:${index}`,
      rank: 9,
      leader: 'dot',
    };
  });
  const hosted = (alternative?.pieces ?? []).flatMap((piece, index): Callout<PartName>[] => {
    const mark = marks?.pieces[index];
    if (piece.host === undefined || mark === undefined) return [];
    const isOnTop = range.items.find(({ id }) => id === piece.item)?.support === 'countertop';
    return [
      {
        at: { x: middleOf(piece), y: build.top + (isOnTop ? 44 : -60) },
        mark,
        text: '',
        part: `piece:${index}`,
        rank: 8,
        leader: 'dot',
      },
    ];
  });
  const folds = corners.map(({ innerAngleDeg, isTangent }, index): Callout<PartName> => {
    const treatment = alternative?.corners[index]?.treatment;
    const isPiece = treatment === 'corner-unit' || treatment === 'mitre';
    return {
      at: { x: developed.foldAt(index), y: build.shelf + 60 },
      ...marked(isPiece ? marks?.corners[index] : undefined),
      text: isTangent
        ? `joint ${input.runNumber}${datumLetter(index + 1)}, no turn`
        : `corner ${input.runNumber}${datumLetter(index + 1)}, ${formatAngle(innerAngleDeg)}${treatment === 'mitre' ? ', wedge made to measure' : ''}`,
      part: `corner:${index}`,
      rank: 7,
      leader: 'bare',
    };
  });
  const leftOut = (problem?.wanted ?? []).flatMap((wanted): Callout<PartName>[] => {
    if (alternative === null || placedAs(input, wanted.id) !== undefined) return [];
    const name = nameOfWanted(range, wanted.item);
    return [
      {
        at: { x: developed.xOf(wanted.straight, wanted.nearMm), y: 70 },
        text: `left out: ${name}`,
        rank: 8,
        leader: 'bare',
      },
    ];
  });
  const sections = (input.cuts ?? []).map(
    ({ letter, straight, alongMm }): Callout<PartName> => ({
      at: { x: developed.xOf(straight, alongMm), y: build.shelf + 94 },
      text: `${letter}\u2013${letter}`,
      rank: 10,
      leader: 'bare',
    }),
  );
  return [
    ...leftovers,
    ...hosted,
    ...folds,
    ...leftOut,
    ...sections,
    ...furtherCallouts(input, developed, build),
  ];
};
