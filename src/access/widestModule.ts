import type { ProjectDocument } from '../document/projectDocument.ts';
import type { StockItem, StockRange } from '../stock/stockSchema.ts';
import { checkWayIn } from './checkWayIn.ts';
import { travellingItem } from './travellingPiece.ts';
import { wayInOfProject } from './wayInOfProject.ts';
import type { Obstacle } from './wayInSchema.ts';

/** What the modules of a range come to on a way in. */
export interface WidestModule {
  /** Every module up to this width passes for sure; null where not even the narrowest does. */
  readonly widthMm: number | null;
  /** The widest module that there is. */
  readonly widestMm: number;
  /** Up to this width modules pass as drawn, but only a site measure can tell; null where that is no wider. */
  readonly asDrawnMm: number | null;
}

const isModule = (item: StockItem, depthMm: number): boolean =>
  (item.fill ?? item.support === 'standing') && (item.depthMm === undefined || item.depthMm <= depthMm);

/**
 * The widest module that passes: the largest stock width up to which every module that may fill a run of this depth
 * passes all obstacles. Null where the range has no module for the depth.
 */
export const widestModule = (
  obstacles: readonly Obstacle[],
  range: StockRange,
  depthMm: number,
): WidestModule | null => {
  const modules = range.items
    .filter((item) => isModule(item, depthMm))
    .sort((one, other) => one.widthMm - other.widthMm);
  const widest = modules.at(-1);
  if (!widest) return null;
  const pieces = modules.map((item) => travellingItem(range, item, { depthMm }).piece);
  const answers = checkWayIn({ obstacles, pieces }).pieces;
  const upTo = (isIn: (answer: (typeof answers)[number]) => boolean): number | null => {
    const stopped = modules[answers.findIndex((answer) => !isIn(answer))];
    if (!stopped) return widest.widthMm;
    return modules.filter(({ widthMm }) => widthMm < stopped.widthMm).at(-1)?.widthMm ?? null;
  };
  const widthMm = upTo(({ passes, sure }) => passes && sure);
  const asDrawnMm = upTo(({ passes }) => passes);
  return { widthMm, widestMm: widest.widthMm, asDrawnMm: asDrawnMm === widthMm ? null : asDrawnMm };
};

export type WidthLimit =
  /** The run is not tied to the way in, or everything passes. */
  | { readonly status: 'free' }
  | { readonly status: 'limited'; readonly widthMm: number }
  | { readonly status: 'nothing-passes'; readonly message: string };

/** How wide a piece of a run may be where the run is tied to the chosen way in. */
export const widthLimitOf = (
  document: ProjectDocument,
  run: { readonly id: ProjectDocument['limitedRunIds'][number]; readonly depthMm: number },
  range: StockRange,
): WidthLimit => {
  const { chosenWayInId } = document;
  if (chosenWayInId === null || !document.limitedRunIds.includes(run.id)) return { status: 'free' };
  const wayIn = wayInOfProject(document, chosenWayInId);
  const widest = wayIn && widestModule(wayIn.obstacles, range, run.depthMm);
  if (!widest || widest.widthMm === widest.widestMm) return { status: 'free' };
  if (widest.widthMm === null)
    return {
      status: 'nothing-passes',
      message: `No module of the range passes “${wayIn.name}” for sure. Measure or change its obstacles, choose another way in, or let go of the limit.`,
    };
  return { status: 'limited', widthMm: widest.widthMm };
};
