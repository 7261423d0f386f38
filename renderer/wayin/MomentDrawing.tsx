import { useId } from 'react';
import type { ObstacleAnswer } from '../../src/access/checkWayIn.ts';
import type { MomentView, Outline } from '../../src/access/momentOutline.ts';
import type { AccessPiece, Obstacle } from '../../src/access/wayInSchema.ts';
import type { Point } from '../../src/geometry/point.ts';
import { lineDashMm, lineWeightMm } from '../../src/issue/drawing/drawing.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { HatchPatterns } from '../elevation/HatchPatterns.tsx';
import { pxPerPaperMm } from '../elevation/pxPerPaperMm.ts';
import { heightView } from './heightView.ts';
import { momentEdges } from './momentEdges.ts';

const viewWords = { plan: 'Plan', section: 'Section', elevation: 'Elevation' } as const;

/** Thickness of the walls drawn round the free space, and room for lettering round them, mm of paper. */
const wallMm = 2;
const marginMm = 6.5;
const letterMm = 2.6;

interface Frame {
  readonly left: number;
  readonly bottom: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

const frameOf = (outlines: readonly Outline[]): Frame => {
  const points = outlines.flat();
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  const left = Math.min(...xs);
  const bottom = Math.min(...ys);
  return { left, bottom, widthMm: Math.max(...xs) - left, heightMm: Math.max(...ys) - bottom };
};

/** One view: the walls hatched as cut, the free space, the piece in it, the clear sizes. */
const View = (props: {
  readonly view: MomentView;
  readonly obstacle: Obstacle;
  readonly answer: ObstacleAnswer;
  readonly unit: DisplayUnit;
  /** Room for the drawing, mm of paper. */
  readonly roomMm: { readonly width: number; readonly height: number };
  readonly words: string;
}) => {
  const { view, obstacle, answer, unit } = props;
  const prefix = `moment-${useId().replace(/[^a-zA-Z0-9]/g, '')}`;
  const frame = frameOf([view.clear, view.piece]);
  const scale = Math.min(
    (props.roomMm.width - 2 * marginMm) / frame.widthMm,
    (props.roomMm.height - 2 * marginMm) / frame.heightMm,
  );
  const at = ({ x, y }: Point) => ({ x: (x - frame.left) * scale, y: (frame.bottom - y) * scale });
  const text = (point: Point) => {
    const { x, y } = at(point);
    return `${x.toFixed(3)} ${y.toFixed(3)}`;
  };
  const closed = (outline: Outline) => `M${outline.map(text).join('L')}Z`;
  const edges = momentEdges(obstacle, answer, view);
  const lineOf = ({ from, to }: { readonly from: Point; readonly to: Point }) => `M${text(from)}L${text(to)}`;
  const walls = edges
    .filter(({ isOpen }) => !isOpen)
    .map(lineOf)
    .join('');
  const open = edges
    .filter(({ isOpen }) => isOpen)
    .map(lineOf)
    .join('');
  // Lettered: the widths at which the way goes on, else the sides of a rectangle below and on the left.
  const lettered = edges.some(({ isOpen }) => isOpen)
    ? edges.filter(
        ({ isOpen }, index) => isOpen && !(obstacle.kind === 'side-doorway' && index > 4 && index < 8),
      )
    : edges.length === 4
      ? [edges[0], edges[3]]
      : [];
  const middle = { x: frame.left + frame.widthMm / 2, y: frame.bottom + frame.heightMm / 2 };
  const width = frame.widthMm * scale + 2 * marginMm;
  const height = frame.heightMm * scale + 2 * marginMm;
  return (
    <figure className="moment-view">
      <svg
        role="img"
        aria-label={`${viewWords[view.view]}: ${props.words}`}
        width={width * pxPerPaperMm}
        height={height * pxPerPaperMm}
        viewBox={`${-marginMm} ${-frame.heightMm * scale - marginMm} ${width} ${height}`}
      >
        <HatchPatterns prefix={prefix} />
        <path
          d={walls}
          fill="none"
          stroke={`url(#${prefix}-section)`}
          strokeWidth={2 * wallMm}
          strokeLinecap="square"
        />
        <path className="fill-ground" d={closed(view.clear)} />
        <path className="line-thick" fill="none" strokeWidth={lineWeightMm.thick} d={walls} />
        <path
          className="line-thin"
          fill="none"
          strokeWidth={lineWeightMm.thin}
          strokeDasharray={lineDashMm.chain.join(' ')}
          d={open}
        />
        <path className="fill-panel moment-tint" d={closed(view.piece)} />
        {!answer.passes && <path fill={`url(#${prefix}-made-to-measure)`} d={closed(view.piece)} />}
        <path className="line-medium" fill="none" strokeWidth={lineWeightMm.medium} d={closed(view.piece)} />
        {lettered.map((edge) => {
          if (!edge) return null;
          const from = at(edge.from);
          const to = at(edge.to);
          const half = { x: (edge.from.x + edge.to.x) / 2, y: (edge.from.y + edge.to.y) / 2 };
          const place = at(half);
          const centre = at(middle);
          const alongLength = Math.hypot(to.x - from.x, to.y - from.y) || 1;
          let out = { x: (to.y - from.y) / alongLength, y: -(to.x - from.x) / alongLength };
          if (out.x * (place.x - centre.x) + out.y * (place.y - centre.y) < 0) out = { x: -out.x, y: -out.y };
          let turnDeg = (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
          if (turnDeg > 90.001 || turnDeg <= -89.999) turnDeg += 180;
          const awayMm = edge.isOpen ? 1.8 : wallMm + 2;
          const x = place.x + out.x * awayMm;
          const y = place.y + out.y * awayMm;
          return (
            <text
              key={`${edge.from.x} ${edge.from.y}`}
              className="moment-size"
              x={x}
              y={y}
              fontSize={letterMm}
              textAnchor="middle"
              dominantBaseline="central"
              transform={`rotate(${turnDeg.toFixed(2)} ${x.toFixed(3)} ${y.toFixed(3)})`}
            >
              {formatLength(Math.hypot(edge.to.x - edge.from.x, edge.to.y - edge.from.y), { unit })}
            </text>
          );
        })}
      </svg>
      <figcaption>{viewWords[view.view]}</figcaption>
    </figure>
  );
};

/** The drawing of the tightest moment: the plan of the turn with the piece in it, the door's section, the lift's car. */
export const MomentDrawing = (props: {
  readonly obstacle: Obstacle;
  readonly piece: AccessPiece;
  readonly answer: ObstacleAnswer;
  readonly unit: DisplayUnit;
  readonly words: string;
  readonly roomPx: { readonly width: number; readonly height: number };
}) => {
  const { obstacle, piece, answer } = props;
  const tooHigh = heightView(obstacle, piece, answer);
  const views = [...(answer.moment?.views ?? []), ...(tooHigh ? [tooHigh] : [])];
  const roomMm = {
    width: props.roomPx.width / pxPerPaperMm / Math.max(1, views.length),
    height: props.roomPx.height / pxPerPaperMm,
  };
  return (
    <div className="moment">
      {views.map((view) => (
        <View key={view.view} {...props} view={view} roomMm={roomMm} />
      ))}
    </div>
  );
};
