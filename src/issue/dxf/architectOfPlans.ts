import { type Box, boxAround } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import type { Linework } from '../../sheet/linework.ts';
import type { FloorPlan } from '../settingOut/floorPlan.ts';
import { roomFrame } from '../settingOut/roomFrame.ts';
import { type ArchitectLines, architectLines, architectReachMm } from './architectLines.ts';

/** The runs of a plan and what lies about them, mm of the room. */
const surroundings = (plan: FloorPlan): Box | undefined => {
  const box = boxAround(plan.runs.flatMap(({ frontLine, backLine }) => [...frontLine, ...backLine]));
  return (
    box && {
      minX: box.minX - architectReachMm,
      minY: box.minY - architectReachMm,
      maxX: box.maxX + architectReachMm,
      maxY: box.maxY + architectReachMm,
    }
  );
};

/**
 * The architect's lines about the runs of a sheet's plans, where these stand in the drawing that holds all of them: each
 * plan's lines move with its first run.
 */
export const architectOfPlans = (
  plans: readonly FloorPlan[],
  together: FloorPlan,
  linework: Linework,
  rotationDeg: number,
): ArchitectLines => {
  const found = plans.map((plan): ArchitectLines => {
    const box = surroundings(plan);
    const first = plan.runs[0];
    const placed = together.runs.find(({ runId }) => runId === first?.runId);
    const [from, to] = [first?.frontLine[0], placed?.frontLine[0]];
    if (!box || !from || !to) return { polylines: [], leftOut: 0 };
    const { toRoom } = roomFrame(plan.scale, rotationDeg, plan.originPaper);
    const { polylines, leftOut } = architectLines(linework, toRoom, box);
    const moved = ({ x, y }: Point): Point => ({ x: x + to.x - from.x, y: y + to.y - from.y });
    return {
      polylines: to.x === from.x && to.y === from.y ? polylines : polylines.map((line) => line.map(moved)),
      leftOut,
    };
  });
  return {
    polylines: found.flatMap(({ polylines }) => polylines),
    leftOut: found.reduce((sum, { leftOut }) => sum + leftOut, 0),
  };
};
