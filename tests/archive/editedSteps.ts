import { createHash } from 'node:crypto';
import fc from 'fast-check';
import type { ProjectEvent, Store } from '../../src/app/ports.ts';
import { projectFactsOf } from '../../src/app/search/projectFacts.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import { doAgain, emptyHistory, type History, recordStep, takeBack } from '../../src/document/history.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import { applyPatch, reversePatch } from '../../src/document/patch.ts';
import { emptyDocument, type ProjectDocument } from '../../src/document/projectDocument.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { commandFor, drawArb } from '../document/randomEditing.ts';

export const fixedNow = (): string => '2027-03-15T10:20:30.000Z';

export const projectIdOf = (name: string | number): ProjectId => `project-${name}` as ProjectId;

/** A project as it must come back from the archive. */
export interface Edited {
  readonly projectId: ProjectId;
  readonly revision: number;
  readonly document: ProjectDocument;
  readonly history: History;
}

export const newProject = async (
  store: Store,
  projectId: ProjectId,
  name = 'Harbour Rooms',
): Promise<Edited> => {
  const document = emptyDocument(name, { id: demoRange.id, version: demoRange.version });
  await store.createProject({ projectId, document, at: fixedNow(), facts: projectFactsOf(document) });
  return { projectId, revision: 0, document, history: emptyHistory };
};

/** The next accepted change of random editing; one in five takes back, one in ten does again. */
export const changesOf = function* (
  from: Edited,
  seed: number,
): Generator<{ readonly event: ProjectEvent; readonly after: Edited }> {
  let state = from;
  let serial = from.revision * 1000;
  for (let round = 0; ; round += 1) {
    for (const draw of fc.sample(drawArb, { seed: seed + round * 7919, numRuns: 200 })) {
      serial += 1;
      const at = new Date(Date.UTC(2027, 2, 15) + serial * 1000).toISOString();
      const turn = draw.more % 10;
      const stepped = turn < 2 ? takeBack(state.history) : turn === 2 ? doAgain(state.history) : null;
      if (stepped) {
        const patch = turn < 2 ? reversePatch(stepped.step.patch) : stepped.step.patch;
        const event: ProjectEvent = {
          kind: turn < 2 ? 'undo' : 'redo',
          label: stepped.step.label,
          patch,
          at,
        };
        const document = applyPatch(state.document, patch);
        state = { ...state, revision: state.revision + 1, document, history: stepped.history };
        yield { event, after: state };
        continue;
      }
      const applied = applyCommand(state.document, commandFor(state.document, draw, serial));
      if (!applied.ok) continue;
      const { patch, label, document } = applied;
      const history = recordStep(state.history, { label, patch });
      state = { ...state, revision: state.revision + 1, document, history };
      yield { event: { kind: 'command', label, patch, at }, after: state };
    }
  }
};

/** Edits a project `count` times and gives it back as it must be now. */
export const edit = async (store: Store, from: Edited, count: number, seed: number): Promise<Edited> => {
  let state = from;
  if (count === 0) return state;
  for (const { event, after } of changesOf(from, seed)) {
    const { projectId, revision: expectedRevision } = state;
    const appended = await store.appendEvent({
      projectId,
      expectedRevision,
      event,
      document: after.document,
      facts: projectFactsOf(after.document),
    });
    if (!appended.ok) throw new Error(`Refused at revision ${expectedRevision}.`);
    state = after;
    if (after.revision === from.revision + count) break;
  }
  return state;
};

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Bytes that a seed gives (a linear congruential generator: multiplier and increment of Numerical Recipes). */
export const seededBytes = (length: number, seed: number): Uint8Array => {
  const bytes = new Uint8Array(length);
  let state = seed >>> 0;
  for (let at = 0; at < length; at += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    bytes[at] = state >>> 24;
  }
  return bytes;
};

/** Numbers from 0 up to, not with, 1, that a seed gives. */
export const seededNumbers = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state ^ (state >>> 15), 2246822519) + 3266489917) >>> 0;
    return state / 2 ** 32;
  };
};
