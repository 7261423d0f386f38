import type { ReadAnswer } from '../scale/readContract.ts';
import { ApiFailure } from './apiFailure.ts';
import type { Ports, ReadContext, ReadingKey } from './ports.ts';
import { searchWords } from './search/searchWords.ts';

/**
 * Plans: original bytes kept once under their SHA-256, and what was read of each page kept beside them, so that a
 * sheet is read once for each version of the reader.
 */
export const plansOver = (ports: Pick<Ports, 'store' | 'plans' | 'now' | 'sha256'>) => {
  const bytesOf = async (sha256: string) => {
    const stored = await ports.store.getPlan(sha256);
    if (!stored) throw new ApiFailure('plan-missing', 'That plan file is not in this archive.', 'sha256');
    return stored;
  };

  const keyOf = (sha256: string, page: number, part: string, { layers = {} }: ReadContext): ReadingKey => ({
    sha256,
    page,
    part: `${part} ${JSON.stringify(Object.entries(layers).sort())}`,
    readerVersion: ports.plans.version,
  });

  const read = async (sha256: string, page: number, context: ReadContext) => {
    const { bytes } = await bytesOf(sha256);
    const { answer, linework, text } = await ports.plans.readPage(bytes, page, context);
    await ports.store.putReading(keyOf(sha256, page, 'answer', context), JSON.stringify(answer));
    await ports.store.putReading(keyOf(sha256, page, 'linework', context), linework);
    // What can be read of the page with its layers as the file has them; layers switched off later stay sought by.
    if (Object.keys(context.layers ?? {}).length === 0)
      await ports.store.putPlanWords({ sha256, page, words: searchWords(text) });
    return { answer, linework };
  };

  return {
    async takeIn(fileName: string, bytes: Uint8Array, context: ReadContext) {
      const pages = await ports.plans.pages(bytes, context);
      const sha256 = await ports.sha256(bytes);
      await ports.store.putPlan({ sha256, fileName, bytes, at: ports.now() });
      return { sha256, pages };
    },

    bytesOf,

    async reading(sha256: string, page: number, context: ReadContext): Promise<ReadAnswer> {
      const kept = await ports.store.getReading(keyOf(sha256, page, 'answer', context));
      // Kept by the same version of the reader, so it has the same form.
      return typeof kept === 'string'
        ? (JSON.parse(kept) as ReadAnswer)
        : (await read(sha256, page, context)).answer;
    },

    async linework(sha256: string, page: number, context: ReadContext): Promise<Uint8Array> {
      const kept = await ports.store.getReading(keyOf(sha256, page, 'linework', context));
      return kept instanceof Uint8Array ? kept : (await read(sha256, page, context)).linework;
    },

    /** The reading of a plan that is not kept. */
    async readOnce(bytes: Uint8Array, page: number, context: ReadContext): Promise<ReadAnswer> {
      return (await ports.plans.readPage(bytes, page, context)).answer;
    },
  };
};

export type Plans = ReturnType<typeof plansOver>;
