import { memo } from 'react';
import type { Shape } from '../../src/issue/drawing/drawing.ts';
import { svgPathData } from './drawingToSvg.ts';

interface Run {
  readonly look: string;
  readonly hatch: string | undefined;
  readonly data: string;
  readonly canGrow: boolean;
}

const lookOf = ({ stroke, fill }: Shape): string =>
  [
    stroke ? `line-${stroke.weight} type-${stroke.type}` : 'line-none',
    fill ? `fill-${fill}` : 'fill-none',
  ].join(' ');

/** Neighbours that look alike and cover nothing become one path: a run of 40 pieces has thousands of shapes. */
const joined = (shapes: readonly Shape[]): readonly Run[] => {
  const runs: Run[] = [];
  for (const shape of shapes) {
    const look = lookOf(shape);
    const canGrow = shape.fill === undefined && shape.hatch === undefined;
    const last = runs.at(-1);
    const data = svgPathData(shape.path);
    if (last?.canGrow && canGrow && last.look === look)
      runs[runs.length - 1] = { ...last, data: last.data + data };
    else runs.push({ look, hatch: shape.hatch, data, canGrow });
  }
  return runs;
};

/** The shapes of a settled drawing, in mm of paper. */
export const DrawingShapes = memo(
  (props: { readonly shapes: readonly Shape[]; readonly hatchPrefix: string }) => (
    <>
      {joined(props.shapes).map(({ look, hatch, data }, index) =>
        hatch === undefined ? (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list is drawn anew as a whole, in its order
          <path key={index} className={look} d={data} />
        ) : (
          // biome-ignore lint/suspicious/noArrayIndexKey: as above
          <g key={index}>
            <path className={`${look} line-none`} d={data} />
            <path className={look} d={data} style={{ fill: `url(#${props.hatchPrefix}-${hatch})` }} />
          </g>
        ),
      )}
    </>
  ),
);
