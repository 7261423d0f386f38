// `node build/lint/checkLayers.ts [FOLDER]`: prints every import that is against the layers; exits 1 if there is one.
import { fileURLToPath } from 'node:url';
import { findLayerViolations } from './findLayerViolations.ts';

const root = process.argv[2] ?? fileURLToPath(new URL('../..', import.meta.url));
const { violations, files, imports } = findLayerViolations(root);
for (const { file, line, rule, message } of violations) {
  console.error(`${file}${line > 0 ? `:${line}` : ''}  ${rule}  ${message}`);
}
console.log(`layers: ${files} files, ${imports} imports, ${violations.length} against the rules`);
process.exitCode = violations.length === 0 ? 0 : 1;
