import type { DrawnPath } from '../../src/issue/drawing/drawnPath.ts';

const round = (value: number): string => String(Math.round(value * 1000) / 1000);

/** A path in mm of paper, y up, as SVG path data with y down. */
export const svgPathData = ({ start, steps, isClosed }: DrawnPath): string => {
  const at = ({ x, y }: { readonly x: number; readonly y: number }) => `${round(x)} ${round(-y)}`;
  const parts = steps.map((step) =>
    step.kind === 'line' ? `L${at(step.to)}` : `C${at(step.c1)} ${at(step.c2)} ${at(step.to)}`,
  );
  return `M${at(start)}${parts.join('')}${isClosed ? 'Z' : ''}`;
};
