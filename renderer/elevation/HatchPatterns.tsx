import type { ReactNode } from 'react';

/**
 * The hatches, each told apart without colour: section, even strokes; blocked, pairs of strokes the other way; closes,
 * dots; filler, single strokes; made to measure, crossed strokes; insulation, a zigzag. Tiles in mm of paper.
 */
export const HatchPatterns = ({ prefix }: { readonly prefix: string }) => (
  <defs>
    <Hatch id={`${prefix}-section`} size={1.5} turn={45} className="hatch-section">
      <path d="M0 0.75H1.5" />
    </Hatch>
    <Hatch id={`${prefix}-blocked`} size={2.4} turn={-45} className="hatch-blocked">
      <path d="M0 0.6H2.4M0 1.2H2.4" />
    </Hatch>
    <Hatch id={`${prefix}-filler`} size={1.1} turn={-45} className="hatch-filler">
      <path d="M0 0.55H1.1" />
    </Hatch>
    <Hatch id={`${prefix}-made-to-measure`} size={1.5} turn={45} className="hatch-made-to-measure">
      <path d="M0 0.75H1.5M0.75 0V1.5" />
    </Hatch>
    <Hatch id={`${prefix}-closes`} size={1.1} turn={45} className="hatch-closes">
      <circle cx={0.55} cy={0.55} r={0.17} />
    </Hatch>
    <Hatch id={`${prefix}-insulation`} size={1} turn={0} className="hatch-insulation">
      <path d="M0 1L0.5 0L1 1" />
    </Hatch>
  </defs>
);

const Hatch = (props: {
  readonly id: string;
  readonly size: number;
  readonly turn: number;
  readonly className: string;
  readonly children: ReactNode;
}) => (
  <pattern
    id={props.id}
    width={props.size}
    height={props.size}
    patternUnits="userSpaceOnUse"
    patternTransform={`rotate(${props.turn})`}
  >
    <g className={props.className}>{props.children}</g>
  </pattern>
);
