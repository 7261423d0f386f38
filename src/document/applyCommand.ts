import type { Command, SimpleCommand } from './command.ts';
import { commandLabel } from './commandLabel.ts';
import { changeDocument, type Patch } from './patch.ts';
import type { ProjectDocument } from './projectDocument.ts';
import type { Refusal } from './refusal.ts';
import { applyRunCommand } from './runCommands.ts';
import { applySettingsCommand } from './settingsCommands.ts';
import { applySheetCommand } from './sheetCommands.ts';
import { applyWayInCommand } from './wayInCommands.ts';

export type Applied =
  | { readonly ok: true; readonly document: ProjectDocument; readonly patch: Patch; readonly label: string }
  | { readonly ok: false; readonly refusal: Refusal };

/**
 * Applies one command to a document, which it leaves untouched: `{document, patch}`, or the reason for refusing.
 * A `together` command is applied whole or not at all.
 *
 * @example applyCommand(document, { type: 'remove-run', runId }).ok // true; the run's zones, stations and fit go too
 */
export const applyCommand = (document: ProjectDocument, command: Command): Applied => {
  const steps: readonly SimpleCommand[] = command.type === 'together' ? command.commands : [command];
  let refused: Refusal | null = null;
  const changed = changeDocument(document, (draft) => {
    for (const [position, step] of steps.entries()) {
      const refusal =
        applyRunCommand(draft, step) ??
        applySheetCommand(draft, step) ??
        applyWayInCommand(draft, step) ??
        applySettingsCommand(draft, step);
      if (refusal) {
        refused =
          command.type === 'together'
            ? { ...refusal, path: `commands.${position}.${refusal.path}` }
            : refusal;
        return;
      }
    }
  });
  if (refused) return { ok: false, refusal: refused };
  return { ok: true, document: changed.document, patch: changed.patch, label: commandLabel(command) };
};
