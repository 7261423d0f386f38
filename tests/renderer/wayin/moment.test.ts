import { describe, expect, it } from 'vitest';
import { heightView } from '../../../renderer/wayin/heightView.ts';
import { momentEdges } from '../../../renderer/wayin/momentEdges.ts';
import { checkWayIn } from '../../../src/access/checkWayIn.ts';
import type { AccessPiece, Obstacle } from '../../../src/access/wayInSchema.ts';

const piece: AccessPiece = { id: 'top', lengthMm: 2_460, widthMm: 760, heightMm: 980, massKg: 90 };

const openLengths = (obstacle: Obstacle): readonly number[] => {
  const answer = checkWayIn({ obstacles: [obstacle], pieces: [piece] }, { drawings: true }).pieces[0]!
    .obstacles[0]!;
  return answer.moment!.views.flatMap((view) =>
    momentEdges(obstacle, answer, view)
      .filter(({ isOpen }) => isOpen)
      .map(({ from, to }) => Math.round(Math.hypot(to.x - from.x, to.y - from.y))),
  );
};

describe('the drawing of the tightest moment', () => {
  it('leaves the way open where it goes on: the widths given, at both ends of a turn', () => {
    expect(openLengths({ kind: 'turn', fromMm: 1_420, toMm: 1_270, heightMm: 2_050 })).toEqual([
      1_420, 1_270,
    ]);
    expect(openLengths({ kind: 'turn', fromMm: 1_420, toMm: 1_270, heightMm: 2_050, angleDeg: 60 })).toEqual([
      1_420, 1_270,
    ]);
  });

  it('closes a leg whose length is given', () => {
    const legs = { fromLegMm: 3_000, toLegMm: 2_800 };
    expect(openLengths({ kind: 'turn', fromMm: 1_420, toMm: 1_270, heightMm: 2_050, ...legs })).toEqual([]);
  });

  it('leaves the passage open at both ends beside a doorway off it', () => {
    const open = openLengths({ kind: 'side-doorway', passageMm: 1_500, widthMm: 1_000, heightMm: 2_040 });
    expect(open.filter((length) => length === 1_500)).toHaveLength(2);
  });

  it('closes a doorway and a lift car all round', () => {
    expect(openLengths({ kind: 'doorway', widthMm: 900, heightMm: 2_040 })).toEqual([]);
  });

  it('shows a piece too high in a section beside the plan, crossing the clear height', () => {
    // On end the piece is 2 460 high; a turn 2 300 high and too tight to swing it stops it by 160.
    const turn: Obstacle = { kind: 'turn', fromMm: 1_420, toMm: 1_270, heightMm: 2_300 };
    const answer = checkWayIn({ obstacles: [turn], pieces: [piece] }, { drawings: true }).pieces[0]!
      .obstacles[0]!;
    expect([answer.orientation, answer.marginMm]).toEqual(['on-end', -160]);
    const section = heightView(turn, piece, answer);
    const top = (outline: readonly { readonly y: number }[]) => Math.max(...outline.map(({ y }) => y));
    expect([top(section!.clear), top(section!.piece)]).toEqual([2_300, 2_460]);
    const wide: Obstacle = { ...turn, heightMm: 3_000 };
    const passing = checkWayIn({ obstacles: [wide], pieces: [piece] }).pieces[0]!.obstacles[0]!;
    expect(heightView(wide, piece, passing)).toBeNull();
  });
});
