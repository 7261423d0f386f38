import { documentSchemaVersion, type ProjectDocument, projectDocumentSchema } from './projectDocument.ts';

export type Migrated =
  | { readonly ok: true; readonly document: ProjectDocument }
  | {
      readonly ok: false;
      readonly code: 'document-newer' | 'document-damaged';
      readonly message: string;
      readonly path: string;
    };

type Step = (document: Record<string, unknown>) => Record<string, unknown>;

/** Step n lifts a document of version n to version n + 1. Steps are frozen once released. */
const steps: Readonly<Record<number, Step>> = {};

const damaged = (message: string, path: string): Migrated => ({
  ok: false,
  code: 'document-damaged',
  message,
  path,
});

/**
 * Reads a stored document of any version up to this program's own, and lifts it. A newer one is refused, never
 * trimmed.
 */
export const migrateDocument = (stored: unknown): Migrated => {
  if (typeof stored !== 'object' || stored === null || Array.isArray(stored))
    return damaged('The stored project is not an object.', '');
  let document = stored as Record<string, unknown>;
  const version = document['schemaVersion'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return damaged('The stored project names no schema version.', 'schemaVersion');
  if (version > documentSchemaVersion)
    return {
      ok: false,
      code: 'document-newer',
      message: `This project was saved by a newer Footrail (document version ${version}; this one reads up to ${documentSchemaVersion}). Open it with that version.`,
      path: 'schemaVersion',
    };
  for (let from = version; from < documentSchemaVersion; from += 1) {
    const step = steps[from];
    if (!step) throw new Error(`No migration from document version ${from}.`);
    document = { ...step(document), schemaVersion: from + 1 };
  }
  const parsed = projectDocumentSchema.safeParse(document);
  if (parsed.success) return { ok: true, document: parsed.data };
  const issue = parsed.error.issues[0];
  return damaged(
    issue?.message ?? 'The stored project does not have the expected form.',
    issue?.path.join('.') ?? '',
  );
};
