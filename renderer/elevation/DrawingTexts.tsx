import { memo } from 'react';
import type { SettledText } from '../../src/issue/drawing/settledDrawing.ts';
import { capitalHeightShare } from '../../src/issue/drawing/textWidth.ts';

/** The texts of a settled drawing, in mm of paper; marks in their frames. */
export const DrawingTexts = memo((props: { readonly texts: readonly SettledText[] }) => (
  <>
    {props.texts.map((text, index) => {
      const { left, right, bottom, top } = text.box;
      const height = top - bottom;
      return (
        // biome-ignore lint/suspicious/noArrayIndexKey: the list is drawn anew as a whole, in its order
        <g key={index} className={`drawn-text is-${text.role}`}>
          <rect
            className={text.isFramed ? 'mark-frame' : 'text-ground'}
            x={left}
            y={-top}
            width={right - left}
            height={height}
            rx={text.isFramed ? height / 2 : 0}
          />
          <text
            x={text.x}
            y={-text.baseline}
            fontSize={text.capitalMm / capitalHeightShare}
            textAnchor={text.align}
          >
            {text.text}
            {text.quietText && <tspan className="quiet-text"> {text.quietText}</tspan>}
          </text>
        </g>
      );
    })}
  </>
));
