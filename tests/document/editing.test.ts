import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import { doAgain, emptyHistory, recordStep, takeBack } from '../../src/document/history.ts';
import { migrateDocument } from '../../src/document/migrateDocument.ts';
import {
  applyPatch,
  type Patch,
  patchSchema,
  reversePatch,
  squashPatches,
} from '../../src/document/patch.ts';
import { emptyDocument, type ProjectDocument } from '../../src/document/projectDocument.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { commandFor, type Draw, drawArb } from './randomEditing.ts';

const start = emptyDocument('Harbour Rooms', { id: 'demo', version: 1 });
const numRuns = campaignSize({ sample: 60, full: 2000 });
const sequenceArb = fc.array(drawArb, { minLength: 1, maxLength: 60 });

const edit = (draws: readonly Draw[]) => {
  let document = start;
  let history = emptyHistory;
  const states: ProjectDocument[] = [start];
  draws.forEach((draw, serial) => {
    const applied = applyCommand(document, commandFor(document, draw, serial));
    if (!applied.ok) return;
    document = applied.document;
    history = recordStep(history, { label: applied.label, patch: applied.patch });
    states.push(document);
  });
  return { document, history, states };
};

describe('editing a project', () => {
  it('comes back to every earlier document by undoing, and to every later one by redoing', () => {
    fc.assert(
      fc.property(sequenceArb, (draws) => {
        const edited = edit(draws);
        let { document, history } = edited;
        for (let index = edited.states.length - 2; index >= 0; index -= 1) {
          const taken = takeBack(history);
          if (!taken) throw new Error('a step is missing');
          document = applyPatch(document, reversePatch(taken.step.patch));
          history = taken.history;
          expect(document).toEqual(edited.states[index]);
        }
        expect(takeBack(history)).toBeNull();
        for (let index = 1; index < edited.states.length; index += 1) {
          const again = doAgain(history);
          if (!again) throw new Error('a step is missing');
          document = applyPatch(document, again.step.patch);
          history = again.history;
          expect(document).toEqual(edited.states[index]);
        }
        expect(doAgain(history)).toBeNull();
      }),
      { numRuns, seed: 20261125 },
    );
  });

  it('keeps every reachable document valid, JSON-able and free of orphans', () => {
    fc.assert(
      fc.property(sequenceArb, (draws) => {
        const { document } = edit(draws);
        const reread = migrateDocument(JSON.parse(JSON.stringify(document)));
        expect(reread).toEqual({ ok: true, document });
        expect([...document.runIds].sort()).toEqual(Object.keys(document.runs).sort());
        expect([...document.sheetIds].sort()).toEqual(Object.keys(document.sheets).sort());
        for (const run of Object.values(document.runs)) expect(document.sheets[run.sheetId]).toBeDefined();
        for (const record of [...Object.values(document.zones), ...Object.values(document.stations)]) {
          const starts = document.runs[record.runId]?.frontLine.slice(0, -1).map(({ id }) => id);
          expect(starts).toContain(record.vertexId);
        }
      }),
      { numRuns, seed: 42 },
    );
  });

  it('writes patches that survive JSON and squash into one that does the same', () => {
    fc.assert(
      fc.property(sequenceArb, (draws) => {
        const { document, history } = edit(draws);
        const patches = history.done.map(({ patch }) => patchSchema.parse(JSON.parse(JSON.stringify(patch))));
        const whole = patches.reduce<Patch>(squashPatches, { forward: [], inverse: [] });
        expect(applyPatch(start, whole)).toEqual(document);
        expect(applyPatch(document, reversePatch(whole))).toEqual(start);
      }),
      { numRuns, seed: 7 },
    );
  });

  it('leaves records that a command does not touch identical', () => {
    const { document } = edit([
      { kind: 1, which: 0, more: 0, points: [] },
      {
        kind: 7,
        which: 0,
        more: 0,
        points: [
          { x: 0, y: 0 },
          { x: 9, y: 0 },
        ] as never,
      },
    ]);
    const renamed = applyCommand(document, { type: 'change-job', changes: { client: 'Salt Lane' } });
    if (!renamed.ok) throw new Error(renamed.refusal.message);
    expect(renamed.document.runs).toBe(document.runs);
    expect(renamed.document.sheets).toBe(document.sheets);
  });
});
