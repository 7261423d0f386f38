import { inflateRawSync } from 'node:zlib';
import { type ApiForTest, apiForTest } from '../portsForTest.ts';

/** A project with a plan, a few changes, some of them undone and done again, and its file. */
export const bundledProject = async (over: ApiForTest = apiForTest()) => {
  const { done } = over;
  const plan = new TextEncoder().encode('%PDF-1.7 the plan of the mezzanine bar, as it came in');
  const { projectId } = await done('take-in-enquiry', { fileName: 'Mezzanine.pdf', bytes: plan });
  let { revision } = await done('open-project', { projectId });
  for (const site of ['Quay 7', 'Quay 8', 'Quay 9'])
    ({ revision } = await done('apply-command', {
      projectId,
      revision,
      command: { type: 'change-job', changes: { site } },
    }));
  ({ revision } = await done('undo', { projectId, revision }));
  ({ revision } = await done('undo', { projectId, revision }));
  ({ revision } = await done('redo', { projectId, revision }));
  const file = await done('export-project', { projectId });
  return { ...over, projectId, revision, plan, file };
};

/**
 * Reads a ZIP archive by walking its local headers from the first byte (PKWARE APPNOTE 4.3.7) and unpacking with the
 * platform's zlib: another way, by other code, than the program's own.
 */
export const walkZip = (bytes: Uint8Array): ReadonlyMap<string, Buffer> => {
  const buffer = Buffer.from(bytes);
  const entries = new Map<string, Buffer>();
  let at = 0;
  while (buffer.readUInt32LE(at) === 0x04034b50) {
    const [method, packed, nameBytes, extraBytes] = [
      buffer.readUInt16LE(at + 8),
      buffer.readUInt32LE(at + 18),
      buffer.readUInt16LE(at + 26),
      buffer.readUInt16LE(at + 28),
    ];
    const name = buffer.toString('latin1', at + 30, at + 30 + nameBytes);
    const from = at + 30 + nameBytes + extraBytes;
    const data = buffer.subarray(from, from + packed);
    entries.set(name, method === 0 ? Buffer.from(data) : inflateRawSync(data));
    at = from + packed;
  }
  return entries;
};
