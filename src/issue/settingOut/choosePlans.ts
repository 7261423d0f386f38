import { boxHeight, boxWidth } from '../../geometry/box.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import type { PenFont } from '../drawing/paperPen.ts';
import type { SectionCut } from '../section/sectionCuts.ts';
import { drawPlanPicture, type PlanPicture } from './drawPlanPicture.ts';
import type { FloorPlan } from './floorPlan.ts';
import {
  type Paper,
  type PaperSystem,
  papers,
  preferredScales,
  type ScaleOnPaper,
  scalesToTry,
} from './papers.ts';

/** One plan sheet: what it shows, at which scale. */
export interface PlanSheet {
  readonly plan: FloorPlan;
  readonly picture: PlanPicture;
  readonly ratio: number;
  readonly scaleWords: string;
}

export interface PlanSheets {
  readonly paper: Paper;
  readonly sheets: readonly PlanSheet[];
}

export interface FieldSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Clear of the field's edge. */
const marginMm = 4;

/**
 * Chooses paper and scale for the plan: all runs on one sheet at one of the two largest preferred scales where they fit,
 * else each run on a sheet of its own at such a scale, else all on one at a smaller scale. Null where even the smallest
 * does not fit.
 */
export const choosePlans = (
  plan: FloorPlan,
  system: PaperSystem,
  given: {
    readonly unit: DisplayUnit;
    readonly font: PenFont;
    readonly cuts?: readonly SectionCut[];
    readonly fieldOf: (paper: Paper) => FieldSize;
    /** Whether a paper comes into question; every one where left out. */
    readonly suits?: (paper: Paper) => boolean;
  },
): PlanSheets | null => {
  const { fieldOf, suits = () => true } = given;
  const drawn = new Map<FloorPlan, Map<number, PlanPicture>>();
  const pictureAt = (some: FloorPlan, ratio: number): PlanPicture => {
    const byRatio = drawn.get(some) ?? new Map<number, PlanPicture>();
    drawn.set(some, byRatio);
    const picture = byRatio.get(ratio) ?? drawPlanPicture(some, ratio, given);
    byRatio.set(ratio, picture);
    return picture;
  };
  const sheetOf = (some: FloorPlan, { paper, ratio, scaleWords }: ScaleOnPaper): PlanSheet | null => {
    const picture = pictureAt(some, ratio);
    const field = fieldOf(paper);
    const fits =
      boxWidth(picture.bounds) + 2 * marginMm <= field.widthMm &&
      boxHeight(picture.bounds) + 2 * marginMm <= field.heightMm;
    return fits ? { plan: some, picture, ratio, scaleWords } : null;
  };
  const goodRatio = preferredScales[system][1]!.ratio;
  const candidates = scalesToTry(system);
  const onOne = (some: readonly ScaleOnPaper[]): PlanSheets | null => {
    for (const candidate of some) {
      if (!suits(candidate.paper)) continue;
      const sheet = sheetOf(plan, candidate);
      if (sheet) return { paper: candidate.paper, sheets: [sheet] };
    }
    return null;
  };
  const together = onOne(candidates.filter(({ ratio }) => ratio <= goodRatio));
  if (together) return together;
  if (plan.runs.length > 1) {
    const alone = plan.runs.map((run): FloorPlan => ({ ...plan, runs: [run] }));
    for (const paper of papers[system]) {
      if (!suits(paper)) continue;
      const scales = preferredScales[system].filter(({ ratio }) => ratio <= goodRatio);
      const sheets = alone.map((some) => {
        for (const { ratio, words } of scales) {
          const sheet = sheetOf(some, { paper, ratio, scaleWords: words });
          if (sheet) return sheet;
        }
        return null;
      });
      if (sheets.every((sheet) => sheet !== null)) return { paper, sheets };
    }
  }
  return onOne(candidates.filter(({ ratio }) => ratio > goodRatio));
};

/** Chooses for several plans of one sheet, all on the same paper. Null where one of them fits none. */
export const chooseForAll = (
  plans: readonly FloorPlan[],
  system: PaperSystem,
  given: Parameters<typeof choosePlans>[2],
): PlanSheets | null => {
  const areaOf = ({ widthMm, heightMm }: Paper) => widthMm * heightMm;
  const alone = plans.map((plan) => choosePlans(plan, system, given));
  const largest = alone.reduce<Paper | null>(
    (most, one) => (one && (!most || areaOf(one.paper) > areaOf(most)) ? one.paper : most),
    null,
  );
  if (!largest) return null;
  const shared = plans.map((plan) =>
    choosePlans(plan, system, { ...given, suits: (paper) => paper === largest }),
  );
  return shared.every((one) => one !== null)
    ? { paper: largest, sheets: shared.flatMap((one) => one?.sheets ?? []) }
    : null;
};
