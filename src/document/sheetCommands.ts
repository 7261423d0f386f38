import type { Draft } from 'mutative';
import type { SimpleCommand } from './command.ts';
import type { ProjectDocument } from './projectDocument.ts';
import { type Refusal, refusal } from './refusal.ts';
import { isPickedOn } from './wayInCommands.ts';

const coincide = (a: { x: number; y: number }, b: { x: number; y: number }) => a.x === b.x && a.y === b.y;

/** Applies commands about the job, sheets, scale and known dimensions to the draft; null when done or not one of them. */
export const applySheetCommand = (draft: Draft<ProjectDocument>, command: SimpleCommand): Refusal | null => {
  switch (command.type) {
    case 'change-job':
      Object.assign(draft.job, command.changes);
      return null;
    case 'choose-stock-range':
      draft.stockRange = command.stockRange;
      return null;
    case 'add-sheet':
      if (draft.sheets[command.sheet.id]) return refusal('sheet-exists', 'sheet.id');
      if (command.sheet.revisionOf && !draft.sheets[command.sheet.revisionOf.supersedes])
        return refusal('supersedes-missing', 'sheet.revisionOf.supersedes');
      draft.sheets[command.sheet.id] = command.sheet as Draft<typeof command.sheet>;
      draft.sheetIds.push(command.sheet.id);
      return null;
    case 'change-sheet': {
      const sheet = draft.sheets[command.sheetId];
      if (!sheet) return refusal('sheet-missing', 'sheetId');
      Object.assign(sheet, command.changes);
      return null;
    }
    case 'remove-sheet': {
      if (!draft.sheets[command.sheetId]) return refusal('sheet-missing', 'sheetId');
      if (Object.values(draft.runs).some((run) => run.sheetId === command.sheetId))
        return refusal('sheet-in-use', 'sheetId');
      if (Object.values(draft.sheets).some(({ revisionOf }) => revisionOf?.supersedes === command.sheetId))
        return refusal('sheet-superseded', 'sheetId');
      if (isPickedOn(draft, command.sheetId)) return refusal('sheet-in-way-in', 'sheetId');
      for (const reference of Object.values(draft.references))
        if (reference.sheetId === command.sheetId) delete draft.references[reference.id];
      delete draft.sheets[command.sheetId];
      draft.sheetIds = draft.sheetIds.filter((id) => id !== command.sheetId);
      return null;
    }
    case 'accept-scale': {
      const sheet = draft.sheets[command.sheetId];
      if (!sheet) return refusal('sheet-missing', 'sheetId');
      sheet.acceptedScale = command.scale as typeof sheet.acceptedScale;
      return null;
    }
    case 'add-reference': {
      const { reference } = command;
      if (draft.references[reference.id]) return refusal('reference-exists', 'reference.id');
      if (!draft.sheets[reference.sheetId]) return refusal('sheet-missing', 'reference.sheetId');
      if (coincide(reference.a, reference.b)) return refusal('reference-too-short', 'reference.b');
      draft.references[reference.id] = reference as Draft<typeof reference>;
      return null;
    }
    case 'change-reference': {
      const reference = draft.references[command.referenceId];
      if (!reference) return refusal('reference-missing', 'referenceId');
      Object.assign(reference, command.changes);
      return coincide(reference.a, reference.b) ? refusal('reference-too-short', 'changes') : null;
    }
    case 'remove-reference':
      if (!draft.references[command.referenceId]) return refusal('reference-missing', 'referenceId');
      delete draft.references[command.referenceId];
      return null;
    default:
      return null;
  }
};
