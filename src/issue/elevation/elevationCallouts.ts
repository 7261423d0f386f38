import { feetOf } from '../../measure/floorLevels.ts';
import { isColumnPassed } from '../../quote/isColumnPassed.ts';
import { formatLength } from '../../units/formatLength.ts';
import type { Callout } from '../drawing/drawing.ts';
import type { PartName } from '../fitOnPlan.ts';
import { zoneTitle } from '../zoneTitle.ts';
import type { DevelopedRun, Stretched } from './developedRun.ts';
import type { ElevationBuild } from './elevationBuild.ts';
import { drawnLength } from './elevationChains.ts';
import type { ElevationInput } from './elevationInput.ts';
import { signedHeight } from './elevationLevels.ts';

const middleOf = ({ left, right }: Stretched): number => (left + right) / 2;

/** Modules that are made wider, in place of a made-to-measure piece. */
const widenedCallouts = (
  { alternative, marks, unit }: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Callout<PartName>[] =>
  (alternative?.pieces ?? []).flatMap((piece, index) => {
    const mark = marks?.pieces[index];
    if (piece.widenedMm === undefined) return [];
    return [
      {
        at: { x: middleOf(developed.stretch(piece)), y: build.top - 150 },
        ...(mark === undefined ? {} : { mark }),
        text: `made ${formatLength(piece.widenedMm, { unit })} wider`,
        part: `piece:${index}` as const,
        rank: 9,
        leader: 'dot' as const,
      },
    ];
  });

/** Columns that pieces stand in front of. */
const columnCallouts = (
  { zones, alternative, unit }: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Callout<PartName>[] =>
  zones.flatMap((zone) =>
    zone.column && isColumnPassed(zone, alternative)
      ? [
          {
            at: { x: middleOf(developed.stretch(zone)), y: build.shelf - 60 },
            text: `${zoneTitle(zone)}: ${formatLength(zone.column.depthMm, { unit })} deep, behind`,
            part: `zone:${zone.id}` as const,
            rank: 6,
            leader: 'bare' as const,
          },
        ]
      : [],
  );

/** Arcs, which the drawing unrolls: their radius and sweep, the wedges between their pieces, how far the top overhangs. */
const arcCallouts = (
  { straights, alternative, unit }: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Callout<PartName>[] =>
  straights.flatMap(({ bend, lengthMm }, straight) => {
    if (!bend) return [];
    const wedges = (alternative?.wedges ?? []).filter((wedge) => wedge.straight === straight).length;
    const overhangMm = Math.max(
      0,
      ...(alternative?.pieces ?? []).map((piece) =>
        piece.straight === straight ? (piece.overhangMm ?? 0) : 0,
      ),
    );
    return [
      {
        at: { x: developed.xOf(straight, lengthMm / 2), y: build.shelf + 60 },
        text: [
          `arc R ${drawnLength(bend.radiusMm, unit)}, ${bend.sweepDeg.toFixed(1)}°`,
          ...(wedges > 0 ? [`${wedges} ${wedges === 1 ? 'wedge' : 'wedges'}`] : []),
          ...(overhangMm > 0 ? [`overhang ${drawnLength(Math.round(overhangMm), unit)}`] : []),
        ].join('; '),
        rank: 8,
        leader: 'bare' as const,
      },
    ];
  });

/** What the floor does to the run: how it lies at the far end, and where feet can't take it up. */
const floorCallouts = (
  { run, unit, range }: ElevationInput,
  { totalMm, isFirstPointAtRight }: DevelopedRun,
  build: ElevationBuild,
): readonly Callout<PartName>[] => {
  const { levels } = run;
  if (!levels) return [];
  const feet = feetOf(levels, range.heights);
  const at = (x: number, text: string): Callout<PartName> => ({
    at: { x, y: build.floorAt(x) },
    text,
    rank: 8,
    leader: 'bare',
  });
  const isWorstAtStart = Math.abs(feet.atStartMm) >= Math.abs(feet.atEndMm);
  return [
    ...(levels.floorAtStartMm === levels.floorAtEndMm
      ? []
      : [at(totalMm, `floor ${signedHeight(build.floorAt(totalMm) - build.datum, unit)}`)]),
    ...(feet.shortByMm > 0
      ? [
          at(
            isWorstAtStart === isFirstPointAtRight ? totalMm : 0,
            `feet fall ${formatLength(feet.shortByMm, { unit })} short`,
          ),
        ]
      : []),
  ];
};

/** What is told above the drawing of modules made wider, of columns behind, and of the floor. */
export const furtherCallouts = (
  input: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Callout<PartName>[] => [
  ...widenedCallouts(input, developed, build),
  ...columnCallouts(input, developed, build),
  ...arcCallouts(input, developed, build),
  ...floorCallouts(input, developed, build),
];
