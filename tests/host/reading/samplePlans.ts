import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = new URL('../../../../shared/plans/', import.meta.url).pathname;

/** Whether the sample plans lie beside this repo; they are not part of it. */
export const hasSamplePlans = existsSync(folder);

if (!hasSamplePlans) process.stdout.write('Skipped: no sample plans in ../shared/plans.\n');

export const samplePlan = (name: string): Uint8Array => new Uint8Array(readFileSync(join(folder, name)));

/** The small rotated, offset, encrypted, layered, damaged and empty files. */
export const awkwardPlans = (): readonly string[] =>
  hasSamplePlans ? readdirSync(join(folder, 'awkward')).map((name) => `awkward/${name}`) : [];
