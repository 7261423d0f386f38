import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';

/** The document as it would be with one command more; as it is where there is none, or where it would be refused. */
export const previewedDocument = (document: ProjectDocument, preview: Command | null): ProjectDocument => {
  const applied = preview && applyCommand(document, preview);
  return applied?.ok ? applied.document : document;
};
