import type { Point } from '../../geometry/point.ts';
import { type ServiceTrade, tradeOf } from '../../services/servicePoint.ts';
import type { ServiceKind } from '../../stock/stockSchema.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import { ink, white } from './planInk.ts';

/** How many corners a trade's symbol has, and how it is turned: each told apart by shape, not by colour. */
const shapes: Readonly<Record<ServiceTrade, readonly [corners: number, turnDeg: number]>> = {
  plumbing: [24, 0],
  electrical: [4, 45],
  data: [3, 90],
  dispense: [4, 0],
  gas: [6, 0],
};

const radiusMm = 1.1;

/** Draws the mark of a service where it comes up: open for what comes in, filled for waste, which goes out. */
export const drawServiceSymbol = (pen: PaperPen, at: Point, kind: ServiceKind): void => {
  const [corners, turnDeg] = shapes[tradeOf(kind)];
  const ring = Array.from({ length: corners }, (_, index) => {
    const angle = ((turnDeg + (index * 360) / corners) * Math.PI) / 180;
    return { x: at.x + radiusMm * Math.cos(angle), y: at.y + radiusMm * Math.sin(angle) };
  });
  pen.ring(ring, { fill: kind === 'waste' ? ink : white, line: { widthMm: 0.25, colour: ink } });
};
