import { expect } from 'vitest';
import { applyCommand } from '../../../src/document/applyCommand.ts';
import type { Command } from '../../../src/document/command.ts';
import type { RunId } from '../../../src/document/ids.ts';
import { emptyDocument, type ProjectDocument } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { checkFit } from '../../../src/fitting/checkFit.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';

export const runId = 'run-1' as RunId;
/** Applies a command, which must not be refused. */
export const apply = (document: ProjectDocument, command: unknown) => {
  const applied = applyCommand(document, command as Command);
  if (!applied.ok) throw new Error(applied.refusal.message);
  return applied;
};

/** An L of 7 350 and 4 920 mm at 1:79.9, an odd scale, so that no paper point is a round number. */
export const documentOf = (): ProjectDocument => {
  const pt = (mm: number) => mm / ((79.9 * 25.4) / 72);
  const steps = [
    {
      type: 'add-sheet',
      sheet: {
        id: 'sheet-1',
        name: 'Ground floor',
        planSha256: '0'.repeat(64),
        planFileName: 'ground.pdf',
        pageNumber: 1,
        userUnit: 1,
        acceptedScale: null,
        layers: {},
      },
    },
    {
      type: 'accept-scale',
      sheetId: 'sheet-1',
      scale: { ratio: 79.9, relativeUncertainty: 0.001, because: 'a test' },
    },
    {
      type: 'add-run',
      run: {
        ...runDefaultsOf(demoRange),
        id: runId,
        sheetId: 'sheet-1',
        name: 'Front bar',
        frontLine: [
          { id: 'vertex-1', at: { x: 100.1, y: 200.2 }, treatment: null },
          { id: 'vertex-2', at: { x: 100.1 + pt(7350), y: 200.2 }, treatment: null },
          { id: 'vertex-3', at: { x: 100.1 + pt(7350), y: 200.2 + pt(4920) }, treatment: null },
        ],
        pickUncertaintyPt: 0,
      },
    },
    {
      type: 'want-station',
      station: {
        id: 'station-1',
        runId,
        item: 'beer-station-600',
        vertexId: 'vertex-1',
        at: { x: 100.1 + pt(3100), y: 200.2 },
        withinMm: 600,
      },
    },
  ];
  return steps.reduce<ProjectDocument>(
    (document, step) => apply(document, step).document,
    emptyDocument('Quay Street Tap', { id: demoRange.id, version: 1 }),
  );
};

/** The fit of the run, which the checker must accept. */
export const fitOf = (document: ProjectDocument) => {
  const posed = poseProblem(document, runId, demoRange);
  if (!posed.ok) throw new Error(posed.message);
  const answer = fitRun(posed.problem, { order: posed.order, alternatives: 4 });
  const [best] = answer.alternatives;
  if (!best) throw new Error(answer.explanation);
  expect(checkFit(posed.problem, answer)).toEqual([]);
  return { ...posed, answer, best };
};
