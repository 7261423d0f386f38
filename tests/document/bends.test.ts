import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import type { RunId, SheetId, VertexId } from '../../src/document/ids.ts';
import { emptyDocument, type ProjectDocument } from '../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { arcThrough } from '../../src/geometry/arc.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

const runId = 'run-1' as RunId;
const vertex = (number: number, x: number, y: number, through?: PaperPoint) => ({
  id: `vertex-${number}` as VertexId,
  at: paperPoint(x, y),
  treatment: null,
  ...(through ? { through } : {}),
});

const apply = (document: ProjectDocument, command: Command): ProjectDocument => {
  const applied = applyCommand(document, command);
  if (!applied.ok) throw new Error(applied.refusal.message);
  return applied.document;
};

/** Straight, quarter circle of radius 100 to the left, straight. */
const drawn = apply(
  apply(emptyDocument('Quay Bar', { id: demoRange.id, version: demoRange.version }), {
    type: 'add-sheet',
    sheet: {
      id: 'sheet-1' as SheetId,
      name: 'Ground floor',
      planSha256: 'a'.repeat(64),
      planFileName: 'ground floor.pdf',
      pageNumber: 1,
      userUnit: 1,
      acceptedScale: null,
      layers: {},
    },
  }),
  {
    type: 'add-run',
    run: {
      ...runDefaultsOf(demoRange),
      id: runId,
      sheetId: 'sheet-1' as SheetId,
      name: 'Run 1',
      pickUncertaintyPt: 0.5,
      frontLine: [
        vertex(1, 0, 0),
        vertex(2, 200, 0, paperPoint(200 + 100 * Math.SQRT1_2, 100 - 100 * Math.SQRT1_2)),
        vertex(3, 300, 100),
        vertex(4, 300, 400),
      ],
    },
  },
);

const arcOf = (document: ProjectDocument) => {
  const [, start, end] = document.runs[runId]!.frontLine;
  return arcThrough(start!.at, start!.through!, end!.at)!;
};

describe('the arcs of a front line', () => {
  it('keep their sweep when one of their ends moves', () => {
    const moved = apply(drawn, {
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
    const moved = apply(drawn, by(30));
    expect(arcOf(moved).radius).toBeCloseTo(100, 9);
    expect(arcOf(moved).centre.x).toBeCloseTo(230, 9);
    expect(arcOf(apply(moved, by(-30))).centre.x).toBeCloseTo(200, 9);
  });

  it('end with their end', () => {
    const without = apply(drawn, { type: 'remove-vertex', runId, vertexId: 'vertex-3' as VertexId });
    expect(without.runs[runId]!.frontLine.map(({ through }) => through)).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('stay where a point before them is removed', () => {
    const without = apply(drawn, { type: 'remove-vertex', runId, vertexId: 'vertex-1' as VertexId });
    expect(without.runs[runId]!.frontLine[0]!.through).toBeDefined();
  });
});
