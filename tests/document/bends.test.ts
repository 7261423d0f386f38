import { describe, expect, it } from 'vitest';
import type { Command } from '../../src/document/command.ts';
import type { RunId, VertexId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { arcThrough } from '../../src/geometry/arc.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { addRun, documentWithSheet, edited } from './drawnDocument.ts';

const runId = 'run-1' as RunId;
const vertex = (number: number, x: number, y: number, through?: PaperPoint) => ({
  id: `vertex-${number}` as VertexId,
  at: paperPoint(x, y),
  treatment: null,
  ...(through ? { through } : {}),
});

/** Straight, quarter circle of radius 100 to the left, straight. */
const drawn = edited(
  documentWithSheet,
  addRun([], {
    pickUncertaintyPt: 0.5,
    frontLine: [
      vertex(1, 0, 0),
      vertex(2, 200, 0, paperPoint(200 + 100 * Math.SQRT1_2, 100 - 100 * Math.SQRT1_2)),
      vertex(3, 300, 100),
      vertex(4, 300, 400),
    ],
  }),
);

const arcOf = (document: ProjectDocument) => {
  const [, start, end] = document.runs[runId]!.frontLine;
  return arcThrough(start!.at, start!.through!, end!.at)!;
};

describe('the arcs of a front line', () => {
  it('keep their sweep when one of their ends moves', () => {
    const moved = edited(drawn, {
      type: 'move-vertex',
      runId,
      vertexId: 'vertex-3' as VertexId,
      to: paperPoint(400, 50),
    });
    expect(arcOf(moved).sweepRad).toBeCloseTo(Math.PI / 2, 9);
  });

  it('keep their shape when both ends move, and come back when they move back', () => {
    const by = (x: number): Command => ({
      type: 'move-vertices',
      runId,
      vertexIds: ['vertex-2', 'vertex-3'] as VertexId[],
      by: { x, y: 0 },
    });
    const moved = edited(drawn, by(30));
    expect(arcOf(moved).radius).toBeCloseTo(100, 9);
    expect(arcOf(moved).centre.x).toBeCloseTo(230, 9);
    expect(arcOf(edited(moved, by(-30))).centre.x).toBeCloseTo(200, 9);
  });

  it('end with their end', () => {
    const without = edited(drawn, { type: 'remove-vertex', runId, vertexId: 'vertex-3' as VertexId });
    expect(without.runs[runId]!.frontLine.map(({ through }) => through)).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('stay where a point before them is removed', () => {
    const without = edited(drawn, { type: 'remove-vertex', runId, vertexId: 'vertex-1' as VertexId });
    expect(without.runs[runId]!.frontLine[0]!.through).toBeDefined();
  });
});
