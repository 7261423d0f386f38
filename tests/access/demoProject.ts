import { createApi } from '../../src/app/createApi.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { createMemoryStore } from '../app/memoryStore.ts';

/** The demo project as an archive that has none yet opens it. */
export const demoProject = async (): Promise<ProjectDocument> => {
  let serial = 0;
  const api = createApi({
    store: createMemoryStore(),
    plans: {
      version: '1',
      pages: async () => [{ page: 1, widthMm: 841, heightMm: 594, sizeName: 'A1', rotation: 0, userUnit: 1 }],
      register: async () => ({ isRegistered: false, reasons: [] }),
      readPage: async () => {
        throw new Error('opening the demo reads no page');
      },
    },
    now: () => '2027-01-04T10:00:00.000Z',
    freshId: () => {
      serial += 1;
      return `t${String(serial).padStart(6, '0')}`;
    },
    sha256: async (bytes) => bytes.length.toString(16).padStart(64, '0'),
    font: async () => new Uint8Array(),
  });
  const opened = await api.call('open-demo', {});
  if (!opened.ok) throw new Error(opened.error.message);
  return (opened.value as { readonly document: ProjectDocument }).document;
};
