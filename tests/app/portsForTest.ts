import { createHash } from 'node:crypto';
import type { ApiInput, ApiMethod, ApiOutput } from '../../src/app/apiMethods.ts';
import { type Api, createApi } from '../../src/app/createApi.ts';
import type { Ports } from '../../src/app/ports.ts';
import type { ReadAnswer } from '../../src/scale/readContract.ts';
import { createMemoryStore } from './memoryStore.ts';

/** Ports without a disk or a thread. Time goes by a second a call; a plan is any bytes, of one A3 page that says its name. */
export const portsForTest = (changes: Partial<Ports> = {}): Ports => {
  let serial = 0;
  let seconds = 0;
  const now = (): string => {
    seconds += 1;
    return new Date(Date.UTC(2027, 2, 15) + seconds * 1000).toISOString();
  };
  return {
    store: createMemoryStore(),
    plans: {
      version: 'test',
      pages: async () => [{ page: 1, widthMm: 420, heightMm: 297, sizeName: 'A3', rotation: 0, userUnit: 1 }],
      register: async () => ({ isRegistered: false, reasons: [] }),
      readPage: async (bytes) => ({
        answer: {} as ReadAnswer,
        linework: new Uint8Array(),
        text: new TextDecoder().decode(bytes),
      }),
    },
    now,
    who: () => 'mara',
    freshId: () => {
      serial += 1;
      return `t${String(serial).padStart(6, '0')}`;
    },
    font: async () => new Uint8Array(),
    sha256: async (bytes) => createHash('sha256').update(bytes).digest('hex'),
    ...changes,
  };
};

export interface ApiForTest {
  readonly api: Api;
  readonly ports: Ports;
  /** Calls a method and gives its value; throws `code: message` where it is refused. */
  readonly done: <Method extends ApiMethod>(
    method: Method,
    input: ApiInput<Method>,
  ) => Promise<ApiOutput<Method>>;
}

export const apiForTest = (changes: Partial<Ports> = {}): ApiForTest => {
  const ports = portsForTest(changes);
  const api = createApi(ports);
  return {
    api,
    ports,
    done: async (method, input) => {
      const answer = await api.call(method, input);
      if (!answer.ok) throw new Error(`${answer.error.code}: ${answer.error.message}`);
      return answer.value as never;
    },
  };
};
