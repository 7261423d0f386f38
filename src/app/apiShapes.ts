import { z } from 'zod';
import { projectIdSchema } from '../document/ids.ts';

/** Shapes that several parts of the API's table have in common. */

export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'expected a SHA-256 in lower-case hexadecimal');
/** The largest plan taken in. A0 sheets with pictures reach some hundred megabytes. */
export const planBytesMost = 512 * 1024 * 1024;
export const anyBytes = z.custom<Uint8Array>((value) => value instanceof Uint8Array, 'expected bytes');
export const bytes = anyBytes.refine((value) => value.byteLength <= planBytesMost, {
  message: `more than ${planBytesMost / 1024 / 1024} MiB`,
});
export const password = z.string().max(500).optional();
export const revision = z.int().min(0);
export const nothing = z.strictObject({});

/**
 * What a contract answers: JSON of the form that its own folder gives it. Only inputs are validated at run time; `footrail
 * schema` publishes the forms.
 */
export const contractAnswer = <Answer>(): z.ZodType<Answer> => z.custom<Answer>();

export const projectRow = z.strictObject({
  projectId: projectIdSchema,
  name: z.string(),
  jobNumber: z.string(),
  client: z.string(),
  site: z.string(),
  state: z.string(),
  tenderDate: z.string(),
  sheets: z.int(),
  runs: z.int(),
  createdAt: z.string(),
  modifiedAt: z.string(),
});

export const file = z.strictObject({ fileName: z.string(), mediaType: z.string(), bytes: anyBytes });
