import { expect } from 'vitest';
import { pickAt } from '../../../renderer/snapping/pickAt.ts';
import { editTool } from '../../../renderer/tools/editTool.ts';
import type { Tool, ToolContext, ToolView } from '../../../renderer/tools/tool.ts';
import { createToolMachine } from '../../../renderer/tools/toolMachine.ts';
import { applyCommand } from '../../../src/document/applyCommand.ts';
import type { Command } from '../../../src/document/command.ts';
import { doAgain, emptyHistory, recordStep, takeBack } from '../../../src/document/history.ts';
import type { RunId, SheetId } from '../../../src/document/ids.ts';
import { applyPatch, reversePatch } from '../../../src/document/patch.ts';
import {
  type AcceptedScale,
  emptyDocument,
  type ProjectDocument,
  type Run,
} from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import { scaleAtPlaces, scaleOfSheet } from '../../../src/measure/scaleOfSheet.ts';
import { straightsOf } from '../../../src/measure/straights.ts';
import type { LineworkIndex } from '../../../src/sheet/lineworkIndex.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import type { DisplayUnit } from '../../../src/units/formatLength.ts';

const sheetId = 'sheet-1' as SheetId;

/** 10 mm in the room for each point of paper, exactly known. */
export const tenMmPerPoint = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 } as const;

const emptySheet = (): ProjectDocument => {
  const added = applyCommand(
    emptyDocument('Harbour Rooms', { id: demoRange.id, version: demoRange.version }),
    {
      type: 'add-sheet',
      sheet: {
        id: sheetId,
        name: 'Ground floor',
        planSha256: 'a'.repeat(64),
        planFileName: 'ground floor.pdf',
        pageNumber: 1,
        userUnit: 1,
        acceptedScale: null,
        layers: {},
      },
    },
  );
  if (!added.ok) throw new Error(added.refusal.message);
  return added.document;
};

type Modifiers = { readonly shift?: boolean; readonly ctrl?: boolean; readonly alt?: boolean };

/**
 * A board without a window, driven in sentences: the real tools, picks, commands, document and history. Places are paper
 * points; one of them is 10 mm in the room, and 4 px on the screen, unless the options say otherwise.
 */
export const toolBoard = (
  options: {
    readonly index?: LineworkIndex;
    readonly unit?: DisplayUnit;
    /** `known`: 10 mm a point; `picked`: as the document's known dimensions have it; `none`. Default `known`. */
    readonly scale?: 'known' | 'picked' | 'none';
    /** The scale taken over from the sheet, with its views; goes with `scale: 'picked'`. */
    readonly accepted?: AcceptedScale;
    /** Default 4. */
    readonly pxPerUnit?: number;
    readonly sheetRightRad?: number;
  } = {},
) => {
  const { index = null, unit = 'mm', scale = 'known', sheetRightRad = 0, pxPerUnit = 4 } = options;
  let document = emptySheet();
  if (options.accepted) {
    const accepted = applyCommand(document, { type: 'accept-scale', sheetId, scale: options.accepted });
    if (!accepted.ok) throw new Error(accepted.refusal.message);
    document = accepted.document;
  }
  let history = emptyHistory;
  let selectedRunId: RunId | null = null;
  let serial = 0;
  let candidate = 0;
  let hand = paperPoint(0, 0);

  const scaleNow = () => {
    if (scale === 'picked') return scaleOfSheet(document, sheetId);
    return scale === 'known' ? tenMmPerPoint : null;
  };
  const context = (): ToolContext => ({
    document,
    sheetId,
    scale: scaleNow(),
    scaleAt: (places) => (scale === 'picked' ? scaleAtPlaces(document, sheetId, places) : scaleNow()),
    userUnit: 1,
    unit,
    selectedRunId,
    freshId: () => {
      serial += 1;
      return String(serial);
    },
    runDefaults: runDefaultsOf(demoRange),
    touchPt: 9 / pxPerUnit,
    linework: index,
    sheetRightRad,
  });
  const dispatch = (command: Command): string | null => {
    const applied = applyCommand(document, command);
    if (!applied.ok) return applied.refusal.message;
    document = applied.document;
    history = recordStep(history, applied);
    return null;
  };
  const machine = createToolMachine(editTool, {
    context,
    dispatch,
    select: (runId) => {
      selectedRunId = runId;
    },
    onChange: () => undefined,
  });
  const pickHere = ({ shift = false, alt = false }: Modifiers) =>
    pickAt(hand, {
      index,
      pxPerUnit,
      userUnit: 1,
      guides: machine.view().guides,
      isSuspended: alt,
      isStepped: shift,
      candidate,
      sheetRightRad,
    });

  const board = {
    take<State>(tool: Tool<State>) {
      machine.take(tool);
      return board;
    },
    point(x: number, y: number, keys: Modifiers = {}) {
      hand = paperPoint(x, y);
      candidate = 0;
      machine.send({ type: 'pointer-move', pick: pickHere(keys) });
      return board;
    },
    press(x: number, y: number, keys: Modifiers = {}) {
      board.point(x, y, keys);
      const { shift = false, ctrl = false } = keys;
      machine.send({ type: 'pointer-down', pick: pickHere(keys), shift, ctrl });
      return board;
    },
    release(keys: Modifiers = {}) {
      machine.send({ type: 'pointer-up', pick: pickHere(keys) });
      return board;
    },
    pick(x: number, y: number, keys: Modifiers = {}) {
      return board.press(x, y, keys).release(keys);
    },
    /** Presses, moves in small steps, lets go. */
    drag(from: readonly [number, number], to: readonly [number, number], keys: Modifiers = {}) {
      board.press(...from, keys);
      for (let step = 1; step <= 8; step += 1)
        board.point(from[0] + ((to[0] - from[0]) * step) / 8, from[1] + ((to[1] - from[1]) * step) / 8, keys);
      return board.release(keys);
    },
    /** Offers the next candidate where the pointer is. */
    next() {
      candidate += 1;
      machine.send({ type: 'pointer-move', pick: pickHere({}) });
      return board;
    },
    type(text: string) {
      machine.send({ type: 'entry', text });
      return board;
    },
    confirm() {
      machine.send({ type: 'confirm' });
      return board;
    },
    escape() {
      machine.send({ type: 'escape' });
      return board;
    },
    cancel() {
      machine.send({ type: 'pointer-cancel' });
      return board;
    },
    delete() {
      machine.send({ type: 'delete' });
      return board;
    },
    step(by: 1 | -1 = 1) {
      machine.send({ type: 'step', by });
      return board;
    },
    /** Does the act with this key or name, which the tool must offer now. */
    act(wanted: string) {
      const act = machine.view().acts.find(({ key, name }) => key === wanted || name === wanted);
      if (!act)
        throw new Error(
          `Not offered: ${wanted}; offered are ${machine
            .view()
            .acts.map(({ name }) => name)
            .join(', ')}`,
        );
      machine.send({ type: 'act', name: act.name });
      return board;
    },
    /** Holds an arrow key for so many repeats, by so many mm each. */
    hold(xMm: number, yMm: number, repeats = 1) {
      for (let repeat = 0; repeat < repeats; repeat += 1)
        machine.send({ type: 'nudge', byMm: { x: xMm, y: yMm } });
      return board;
    },
    letGo() {
      machine.send({ type: 'nudge-end' });
      return board;
    },
    undo() {
      const taken = takeBack(history);
      if (!taken) throw new Error('nothing to undo');
      document = applyPatch(document, reversePatch(taken.step.patch));
      history = taken.history;
      return board;
    },
    redo() {
      const again = doAgain(history);
      if (!again) throw new Error('nothing to redo');
      document = applyPatch(document, again.step.patch);
      history = again.history;
      return board;
    },
    select(runId: RunId | null) {
      selectedRunId = runId;
      return board;
    },

    expectState(at: string) {
      expect((machine.inHand().state as { readonly at?: string }).at).toBe(at);
      return board;
    },
    expectTool(name: string) {
      expect(machine.inHand().tool.name).toBe(name);
      return board;
    },
    expectSaid(words: RegExp | null) {
      if (words === null) expect(machine.said()).toBeNull();
      else expect(machine.said()).toMatch(words);
      return board;
    },
    expectPrompt(words: RegExp) {
      expect(machine.view().prompt).toMatch(words);
      return board;
    },
    /** How many steps can be undone. */
    expectSteps(count: number) {
      expect(history.done.length).toBe(count);
      return board;
    },
    /** Lengths of the straights of the newest run, in mm. */
    expectStraights(...lengthsMm: readonly number[]) {
      const lengths = straightsOf(runAsTraced(board.run()), tenMmPerPoint).map(({ lengthMm }) => lengthMm);
      expect(lengths).toHaveLength(lengthsMm.length);
      lengths.forEach((length, at) => {
        expect(length).toBeCloseTo(lengthsMm[at]!, 6);
      });
      return board;
    },
    /** Points of the newest run's front line, in paper points. */
    expectPoints(...points: readonly (readonly [number, number])[]) {
      const found = board.run().frontLine.map(({ at }) => at);
      expect(found).toHaveLength(points.length);
      found.forEach(({ x, y }, at) => {
        expect(x).toBeCloseTo(points[at]![0], 6);
        expect(y).toBeCloseTo(points[at]![1], 6);
      });
      return board;
    },
    /** What the mark at the pointer says. */
    expectWord(word: string | null) {
      const mark = machine.view().marks.at(-1);
      expect(mark?.word ?? mark?.relation?.word ?? null).toBe(word);
      return board;
    },

    run(): Run {
      const run = document.runs[document.runIds.at(-1) ?? ('run-none' as RunId)];
      if (!run) throw new Error('there is no run');
      return run;
    },
    document: () => document,
    scale: scaleNow,
    view: (): ToolView => machine.view(),
    state: () => machine.inHand().state,
    selected: () => selectedRunId,
  };
  return board;
};
