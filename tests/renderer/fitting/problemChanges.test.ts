import { describe, expect, it } from 'vitest';
import { problemChanges } from '../../../renderer/fitting/problemChanges.ts';
import type { ProjectDocument } from '../../../src/document/projectDocument.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { apply, documentOf, fitOf, runId } from './cornerRun.ts';

describe('what has changed since a fit was kept', () => {
  const document = documentOf();
  const before = fitOf(document).key;
  const changedBy = (...commands: readonly unknown[]) =>
    problemChanges(
      before,
      fitOf(commands.reduce<ProjectDocument>((one, step) => apply(one, step).document, document)).key,
      'mm',
    );

  it('is nothing where nothing has', () => {
    expect(problemChanges(before, before, 'mm')).toEqual([]);
  });

  it('is told in words', () => {
    const pt = 200 / ((79.9 * 25.4) / 72);
    const corner = document.runs[runId]?.frontLine[2]?.at;
    if (!corner) throw new Error('no end');
    expect(
      changedBy({ type: 'move-vertex', runId, vertexId: 'vertex-3', to: { x: corner.x, y: corner.y - pt } }),
    ).toEqual(['straight 2 is 200\u00a0mm shorter']);
    expect(changedBy({ type: 'change-run', runId, changes: { order: 'price' } })).toEqual(['the order']);
    expect(
      changedBy(
        { type: 'remove-station', stationId: 'station-1' },
        { type: 'change-run', runId, changes: { depthMm: 650, fillerMaxMm: 90 } },
      ),
    ).toEqual(['the depth', '1 fewer wanted or held in place', 'a limit']);
  });

  it('includes the stock range', () => {
    const dearer = { ...demoRange, items: demoRange.items.map((item) => ({ ...item, price: 1 })) };
    const now = poseProblem(document, runId, dearer);
    expect(now.ok && problemChanges(before, now.key, 'mm')).toEqual(['the stock range']);
  });
});
