import type { Point } from '../../geometry/point.ts';
import type { ServiceKind } from '../../stock/stockSchema.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import { ink, white } from './planInk.ts';

/** What stands within a symbol's outline. */
type Sign = 'open' | 'filled' | 'dot' | 'bar' | 'half';

/**
 * Each kind has a symbol of its own, told apart by shape and sign, not by colour: the outline says the trade (circle
 * water and drains, square power, triangle data, diamond dispense, hexagon gas), the sign which of its services.
 */
const symbols: Readonly<
  Record<ServiceKind, { readonly corners: number; readonly turnDeg: number; readonly sign: Sign }>
> = {
  'cold-water': { corners: 24, turnDeg: 0, sign: 'open' },
  'hot-water': { corners: 24, turnDeg: 0, sign: 'dot' },
  waste: { corners: 24, turnDeg: 0, sign: 'filled' },
  power: { corners: 4, turnDeg: 45, sign: 'open' },
  data: { corners: 3, turnDeg: 90, sign: 'open' },
  'beer-line': { corners: 4, turnDeg: 0, sign: 'open' },
  coolant: { corners: 4, turnDeg: 0, sign: 'half' },
  gas: { corners: 6, turnDeg: 0, sign: 'bar' },
};

const radiusMm = 1.1;

/** The outline of a kind's symbol about a place. */
export const serviceOutline = (at: Point, kind: ServiceKind, radius: number): readonly Point[] => {
  const { corners, turnDeg } = symbols[kind];
  return Array.from({ length: corners }, (_, index) => {
    const angle = ((turnDeg + (index * 360) / corners) * Math.PI) / 180;
    return { x: at.x + radius * Math.cos(angle), y: at.y + radius * Math.sin(angle) };
  });
};

/** Draws the mark of a service where it comes up. */
export const drawServiceSymbol = (pen: PaperPen, at: Point, kind: ServiceKind): void => {
  const { sign } = symbols[kind];
  const ring = serviceOutline(at, kind, radiusMm);
  const line = { widthMm: 0.25, colour: ink };
  pen.ring(ring, { fill: sign === 'filled' ? ink : white, line });
  if (sign === 'dot') pen.ring(serviceOutline(at, kind, radiusMm * 0.35), { fill: ink });
  if (sign === 'bar')
    pen.line(
      [
        { x: at.x, y: at.y - radiusMm * 0.86 },
        { x: at.x, y: at.y + radiusMm * 0.86 },
      ],
      line,
    );
  if (sign === 'half')
    pen.ring(
      ring.filter(({ x }) => x <= at.x + 1e-9),
      { fill: ink },
    );
};
