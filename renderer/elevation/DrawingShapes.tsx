import { memo } from 'react';
import { lineDashMm, lineWeightMm, type Shape, type Stroke } from '../../src/issue/drawing/drawing.ts';
import { svgPathData } from './drawingToSvg.ts';

/** Shapes that are drawn as one path: neighbours that look alike and cover nothing. */
interface Drawn {
  readonly stroke: Stroke | undefined;
  readonly fill: string;
  readonly hatch: string | undefined;
  readonly data: string;
  readonly canGrow: boolean;
}

const joined = (shapes: readonly Shape[]): readonly Drawn[] => {
  const drawn: Drawn[] = [];
  for (const { stroke, fill, hatch, path } of shapes) {
    const data = svgPathData(path);
    const canGrow = fill === undefined && hatch === undefined;
    const last = drawn.at(-1);
    if (
      last?.canGrow &&
      canGrow &&
      last.stroke?.weight === stroke?.weight &&
      last.stroke?.type === stroke?.type
    )
      drawn[drawn.length - 1] = { ...last, data: last.data + data };
    else drawn.push({ stroke, fill: fill ?? 'none', hatch, data, canGrow });
  }
  return drawn;
};

const lineOf = (stroke: Stroke | undefined, share: number) =>
  stroke && {
    strokeWidth: lineWeightMm[stroke.weight] * share,
    strokeDasharray: lineDashMm[stroke.type].join(' ') || undefined,
  };

/** The shapes of a settled drawing, in mm of paper; `lineShare` as the drawing has it. */
export const DrawingShapes = memo(
  (props: {
    readonly shapes: readonly Shape[];
    readonly hatchPrefix: string;
    readonly lineShare?: number;
  }) => (
    <>
      {joined(props.shapes).map(({ stroke, fill, hatch, data }, index) => {
        const line = lineOf(stroke, props.lineShare ?? 1);
        const lineClass = stroke ? `line-${stroke.weight}` : 'line-none';
        return hatch === undefined ? (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list is drawn anew as a whole, in its order
          <path key={index} className={`${lineClass} fill-${fill}`} {...line} d={data} />
        ) : (
          // biome-ignore lint/suspicious/noArrayIndexKey: as above
          <g key={index}>
            <path className={`line-none fill-${fill}`} d={data} />
            <path className={lineClass} {...line} fill={`url(#${props.hatchPrefix}-${hatch})`} d={data} />
          </g>
        );
      })}
    </>
  ),
);
