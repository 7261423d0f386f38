import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import { emptyDocument, type ProjectDocument } from '../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

/** Documents for tests, made as an operator makes them: command by command. One sheet, `sheet-1`; one run, `run-1`. */

/** So many millimetres of the room in points of a sheet at 1:50: 1 pt = 25.4/72 mm of paper (ISO 32000-1, 8.3.2.3). */
export const pt = (mm: number, ratio = 50): number => mm / ((ratio * 25.4) / 72);

/** The place of a room point, in mm, on a sheet at 1:50 whose origin is the room's. */
export const at = (xMm: number, yMm = 0): PaperPoint => paperPoint(pt(xMm), pt(yMm));

/**
 * The document after commands, none of which may be refused. They are plain JSON, as they come from a host: ids need
 * not be branded.
 */
export const edited = (document: ProjectDocument, ...commands: readonly unknown[]): ProjectDocument =>
  commands.reduce<ProjectDocument>((before, command) => {
    const applied = applyCommand(before, command as Command);
    if (!applied.ok) throw new Error(`${(command as Command).type}: ${applied.refusal.message}`);
    return applied.document;
  }, document);

/** A project without a sheet. */
export const bareDocument = emptyDocument('Quay Street Tap', {
  id: demoRange.id,
  version: demoRange.version,
});

export const addSheet = {
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
};

export const acceptScale = (ratio = 50, relativeUncertainty = 0) => ({
  type: 'accept-scale',
  sheetId: 'sheet-1',
  scale: { ratio, relativeUncertainty, because: 'a test' },
});

/** A run with the demo range's defaults and picks without uncertainty; its vertices are `vertex-1`, `vertex-2`, … */
export const addRun = (points: readonly PaperPoint[], changes: object = {}) => ({
  type: 'add-run',
  run: {
    ...runDefaultsOf(demoRange),
    id: 'run-1',
    sheetId: 'sheet-1',
    name: 'Front bar',
    frontLine: points.map((point, index) => ({ id: `vertex-${index + 1}`, at: point, treatment: null })),
    pickUncertaintyPt: 0,
    ...changes,
  },
});

/** A project with its sheet, without a scale. */
export const documentWithSheet = edited(bareDocument, addSheet);

/** A project with its sheet at exactly 1:50. */
export const documentAtFifty = edited(documentWithSheet, acceptScale());
