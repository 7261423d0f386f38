import { expect } from 'vitest';
import { applyCommand } from '../../../src/document/applyCommand.ts';
import type { Command } from '../../../src/document/command.ts';
import type { RunId } from '../../../src/document/ids.ts';
import type { ProjectDocument } from '../../../src/document/projectDocument.ts';
import { checkFit } from '../../../src/fitting/checkFit.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { acceptScale, addRun, documentWithSheet, edited, pt } from '../../document/drawnDocument.ts';

export const runId = 'run-1' as RunId;
/** Applies a command, which must not be refused. */
export const apply = (document: ProjectDocument, command: unknown) => {
  const applied = applyCommand(document, command as Command);
  if (!applied.ok) throw new Error(applied.refusal.message);
  return applied;
};

/** An L of 7 350 and 4 920 mm at 1:79.9, an odd scale, so that no paper point is a round number. */
export const documentOf = (): ProjectDocument => {
  const place = (xMm: number, yMm: number) => paperPoint(100.1 + pt(xMm, 79.9), 200.2 + pt(yMm, 79.9));
  return edited(
    documentWithSheet,
    acceptScale(79.9, 0.001),
    addRun([place(0, 0), place(7350, 0), place(7350, 4920)]),
    {
      type: 'want-station',
      station: {
        id: 'station-1',
        runId,
        item: 'beer-station-600',
        vertexId: 'vertex-1',
        at: place(3100, 0),
        withinMm: 600,
      },
    },
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
