import { useState } from 'react';
import type { SheetId } from '../../src/document/ids.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import type { ProjectSession } from './projectSession.ts';
import { saveFile } from './saveFile.ts';

export type Takeaway =
  | 'export-schedule'
  | 'export-workbook'
  | 'export-plan'
  | 'export-setting-out'
  | 'export-dxf';

export interface TakeAway {
  readonly isBusy: boolean;
  readonly trouble: string | null;
  readonly take: (what: Takeaway) => Promise<void>;
}

/** Makes a file of the project and hands it over to be saved, once every command is on disk. */
export const useTakeAway = (
  api: ApiClient,
  session: ProjectSession,
  sheet: { readonly id: SheetId; readonly password: string | undefined } | null,
): TakeAway => {
  const [isBusy, setIsBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const make = async (what: Takeaway) => {
    await session.settled();
    const { projectId, unsaved } = session.state();
    if (unsaved > 0)
      throw new Error('Not everything is saved yet, so the file would lack it. Try again once it is.');
    if (what === 'export-schedule' || what === 'export-workbook') return api.call(what, { projectId });
    if (!sheet) throw new Error('Take in a plan first: there is nothing to draw over.');
    const { id, password } = sheet;
    return api.call(what, { projectId, sheetId: id, ...(password ? { password } : {}) });
  };
  const take = async (what: Takeaway) => {
    setIsBusy(true);
    setTrouble(null);
    try {
      await saveFile(await make(what));
    } catch (thrown) {
      setTrouble(wordsFor(thrown));
    } finally {
      setIsBusy(false);
    }
  };
  return { isBusy, trouble, take };
};
