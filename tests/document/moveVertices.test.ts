import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { RunId, StationId, VertexId, ZoneId } from '../../src/document/ids.ts';
import { applyPatch, reversePatch } from '../../src/document/patch.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { addRun, documentWithSheet, edited } from './drawnDocument.ts';

const runId = 'run-1' as RunId;
const vertexIds = ['vertex-1', 'vertex-2', 'vertex-3'] as VertexId[];

/** A run of two straights with a zone on each and a station on the first. */
const start = edited(
  documentWithSheet,
  addRun([paperPoint(0, 0), paperPoint(100, 0), paperPoint(100, 50)], { pickUncertaintyPt: 0.1 }),
  ...[0, 1].map((straight) => ({
    type: 'add-zone',
    zone: {
      id: `zone-${straight}`,
      runId,
      kind: 'opening',
      name: 'Flap',
      vertexId: vertexIds[straight]!,
      a: straight ? paperPoint(100, 10) : paperPoint(10, 0),
      b: straight ? paperPoint(100, 20) : paperPoint(20, 0),
    },
  })),
  {
    type: 'want-station',
    station: {
      id: 'station-1',
      runId,
      item: 'hand-basin-11l',
      vertexId: vertexIds[0]!,
      at: paperPoint(60, 0),
      withinMm: 300,
    },
  },
);

const moved = (ids: readonly VertexId[], x: number, y: number) =>
  applyCommand(start, { type: 'move-vertices', runId, vertexIds: [...ids], by: { x, y } });

describe('moving points together', () => {
  it('moves a whole run with everything on it, and back by the reversed patch', () => {
    const applied = moved(vertexIds, 7, -3);
    if (!applied.ok) throw new Error(applied.refusal.message);
    const { document, patch } = applied;
    expect(document.runs[runId]?.frontLine.map(({ at }) => at)).toEqual([
      { x: 7, y: -3 },
      { x: 107, y: -3 },
      { x: 107, y: 47 },
    ]);
    expect(document.zones['zone-0' as ZoneId]).toMatchObject({ a: { x: 17, y: -3 }, b: { x: 27, y: -3 } });
    expect(document.zones['zone-1' as ZoneId]).toMatchObject({ a: { x: 107, y: 7 }, b: { x: 107, y: 17 } });
    expect(document.stations['station-1' as StationId]?.at).toEqual({ x: 67, y: -3 });
    expect(applyPatch(document, reversePatch(patch))).toEqual(start);
  });

  it('leaves alone what stands on a straight that only gets longer', () => {
    const applied = moved(vertexIds.slice(1), 20, 0);
    if (!applied.ok) throw new Error(applied.refusal.message);
    expect(applied.document.zones['zone-0' as ZoneId]).toBe(start.zones['zone-0' as ZoneId]);
    expect(applied.document.zones['zone-1' as ZoneId]).toMatchObject({ a: { x: 120, y: 10 } });
    expect(applied.document.stations['station-1' as StationId]?.at).toEqual({ x: 60, y: 0 });
  });

  it('may pass over the place of a point that moves as well', () => {
    expect(moved(vertexIds, 100, 0).ok).toBe(true);
    expect(moved(vertexIds.slice(0, 2), 0, 50)).toMatchObject({
      ok: false,
      refusal: { code: 'vertices-coincide', path: 'by' },
    });
  });

  it('refuses points that the run does not have', () => {
    expect(moved(['vertex-9' as VertexId], 1, 1)).toMatchObject({
      ok: false,
      refusal: { code: 'vertex-missing', path: 'vertexIds' },
    });
    expect(
      applyCommand(start, {
        type: 'move-vertices',
        runId: 'run-9' as RunId,
        vertexIds,
        by: { x: 1, y: 1 },
      }),
    ).toMatchObject({ ok: false, refusal: { code: 'run-missing' } });
  });
});
