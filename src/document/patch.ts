import { apply, create, type Draft } from 'mutative';
import { z } from 'zod';
import type { ProjectDocument } from './projectDocument.ts';

/**
 * A reversible change of a document, as data: what to do and what undoes it. The operations are those of `mutative`
 * (RFC 6902 words with array paths), always in the order in which they must be applied.
 */
const operationSchema = z.strictObject({
  op: z.enum(['add', 'remove', 'replace']),
  path: z.array(z.union([z.string(), z.int()])),
  value: z.json().optional(),
});

export const patchSchema = z.strictObject({
  forward: z.array(operationSchema),
  inverse: z.array(operationSchema),
});

export type Patch = z.infer<typeof patchSchema>;
type Operations = Patch['forward'];

/** Draws up the patch that a change of the draft amounts to; untouched records keep their identity. */
export const changeDocument = (
  document: ProjectDocument,
  change: (draft: Draft<ProjectDocument>) => void,
): { readonly document: ProjectDocument; readonly patch: Patch } => {
  const [changed, forward, inverse] = create(document, change, { enablePatches: true });
  return { document: changed, patch: { forward: forward as Operations, inverse: inverse as Operations } };
};

/** Does what the patch says. The patch must have been made from this very state. */
export const applyPatch = (document: ProjectDocument, patch: Patch): ProjectDocument =>
  apply(document, patch.forward as Parameters<typeof apply>[1]) as ProjectDocument;

/** The patch that undoes `patch`: the same with its two directions changed over. */
export const reversePatch = (patch: Patch): Patch => ({ forward: patch.inverse, inverse: patch.forward });

/** One patch that does `first`, then `second`. */
export const squashPatches = (first: Patch, second: Patch): Patch => ({
  forward: [...first.forward, ...second.forward],
  inverse: [...second.inverse, ...first.inverse],
});
