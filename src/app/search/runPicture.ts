import type { ProjectDocument } from '../../document/projectDocument.ts';
import { runIdsInForce } from '../../document/runsInForce.ts';
import type { Point } from '../../geometry/point.ts';
import { backLineOf } from '../../measure/backLine.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import { flattenedPath } from '../../measure/runPath.ts';
import { scaleOfSheet } from '../../measure/scaleOfSheet.ts';

/**
 * A small picture of the counters of one sheet, seen from above: its size and, for each run, the corners of its
 * outline as `x, y, x, y, …` in whole units from the top left. The longer side is 1000.
 */
export interface RunPicture {
  readonly width: number;
  readonly height: number;
  readonly runs: readonly {
    readonly points: readonly number[];
    /** False where the depth can't be drawn for want of a scale: the points are then the front line alone. */
    readonly isClosed: boolean;
  }[];
}

const longerSide = 1000;
/** More than these can't be told apart in a picture the size of a stamp. */
const runsMost = 12;

/** The picture of the first sheet that runs are traced on; null where none is. */
export const runPictureOf = (document: ProjectDocument): RunPicture | null => {
  const traced = runIdsInForce(document).flatMap((runId) => document.runs[runId] ?? []);
  const sheetId = traced[0]?.sheetId;
  if (sheetId === undefined) return null;
  const scale = scaleOfSheet(document, sheetId);
  const outlines = traced
    .filter((run) => run.sheetId === sheetId)
    .slice(0, runsMost)
    .map((run): { points: readonly Point[]; isClosed: boolean } => {
      const path = runAsTraced(run);
      const frontLine = flattenedPath(path);
      if (!scale) return { points: frontLine, isClosed: false };
      return {
        points: [...frontLine, ...[...backLineOf(path, scale)].reverse()],
        isClosed: true,
      };
    });
  const all = outlines.flatMap(({ points }) => points).filter(({ x, y }) => Number.isFinite(x + y));
  const minX = Math.min(...all.map(({ x }) => x));
  const maxX = Math.max(...all.map(({ x }) => x));
  const minY = Math.min(...all.map(({ y }) => y));
  const maxY = Math.max(...all.map(({ y }) => y));
  const perUnit = longerSide / Math.max(maxX - minX, maxY - minY);
  if (!Number.isFinite(perUnit)) return null;
  return {
    width: Math.round((maxX - minX) * perUnit),
    height: Math.round((maxY - minY) * perUnit),
    runs: outlines.map(({ points, isClosed }) => ({
      points: points.flatMap(({ x, y }) => [
        Math.round((x - minX) * perUnit),
        // The page's y goes up, the picture's down.
        Math.round((maxY - y) * perUnit),
      ]),
      isClosed,
    })),
  };
};
