import { memo } from 'react';
import { hatchTiles } from '../../src/issue/drawing/hatchTiles.ts';

/** The hatches of drawings as SVG patterns, each named by `prefix` and its kind; tiles in mm of paper. */
export const HatchPatterns = memo(({ prefix }: { readonly prefix: string }) => (
  <defs>
    {Object.entries(hatchTiles).map(([kind, { sizeMm, turnDeg, strokes, strokeMm, dots, tone }]) => (
      <pattern
        key={kind}
        id={`${prefix}-${kind}`}
        width={sizeMm}
        height={sizeMm}
        patternUnits="userSpaceOnUse"
        // Drawings have y up, the page has y down: a turn goes the other way, and the tile stands on its head.
        patternTransform={`scale(1 -1) rotate(${turnDeg})`}
      >
        <g className={`hatch-${tone}`}>
          {strokes.map((points) => (
            <polyline key={points.join(' ')} points={points.join(' ')} strokeWidth={strokeMm} />
          ))}
          {dots.map(({ at: [x, y], radiusMm }) => (
            <circle key={`${x} ${y}`} cx={x} cy={y} r={radiusMm} />
          ))}
        </g>
      </pattern>
    ))}
  </defs>
));
