import { type ReactNode, useCallback, useMemo, useState } from 'react';
import type { RunId, SheetId } from '../../src/document/ids.ts';
import type { Sheet } from '../../src/document/projectDocument.ts';
import { isSuperseded } from '../../src/document/runsInForce.ts';
import { mmPerUserUnit, type SheetScale } from '../../src/measure/tracedRun.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import type { Board } from '../board/board.ts';
import type { DisplayItem } from '../board/displayList.ts';
import type { ProjectSession, ProjectState } from '../project/projectSession.ts';
import type { Follows, TakenIn } from '../project/takenIn.ts';
import { comparedItems, sheetCorners, swappedItems } from './comparedSheets.ts';
import { RevisionDialog } from './RevisionDialog.tsx';
import { RevisionPanel } from './RevisionPanel.tsx';
import { useComparedSheets } from './useComparedSheets.ts';

/** Plan revisions on the project screen. */
export interface Revisions {
  /** Sheets that a plan may be a later revision of. */
  readonly revisable: readonly { readonly id: SheetId; readonly name: string; readonly revision: string }[];
  /** Lays a page on the sheet that it follows. */
  readonly begin: (taken: TakenIn, follows: Follows) => void;
  readonly dialog: ReactNode;
  /** What there is to say of the sheet on the board; null where it follows none. */
  readonly panel: ReactNode;
  /** What the board shows: the items as they are, with what moved, or the old sheet in their place. */
  readonly shown: readonly DisplayItem[];
}

export const useRevisions = (over: {
  readonly api: ApiClient;
  readonly session: ProjectSession;
  readonly project: ProjectState;
  readonly sheet: Sheet | null;
  readonly scale: SheetScale | null;
  readonly unit: DisplayUnit;
  readonly board: Board;
  readonly items: readonly DisplayItem[];
  readonly passwordOf: (planSha256: string) => string | undefined;
  /** The revised sheet is in the project, with the first of the runs carried over. */
  readonly onRevised: (sheetId: SheetId, runId: RunId | null) => void;
  readonly onTrouble: (thrown: unknown) => void;
}): Revisions => {
  const { api, session, project, sheet, scale, unit, board, items, passwordOf } = over;
  const { document, projectId } = project;
  const [revising, setRevising] = useState<{ readonly taken: TakenIn; readonly follows: Follows } | null>(
    null,
  );
  const [isCompared, setIsCompared] = useState(false);
  const [isSwapped, setIsSwapped] = useState(false);
  const revisionOf = sheet?.revisionOf;
  const comparison = useComparedSheets({
    api,
    projectId,
    document,
    sheet,
    isWanted: isCompared && revisionOf !== undefined,
    passwordOf,
  });
  const shown = useMemo(() => {
    if (comparison.status !== 'ready' || !revisionOf) return items;
    const { registered, oldLinework } = comparison;
    if (isSwapped) return swappedItems(oldLinework, registered, sheetCorners(board));
    const names = {
      old: document.sheets[revisionOf.supersedes]?.revisionOf?.revision || 'A',
      later: revisionOf.revision || 'B',
    };
    return [...comparedItems(registered, names, scale ? mmPerUserUnit(scale) : null, unit), ...items];
  }, [items, comparison, isSwapped, revisionOf, document.sheets, scale, unit, board]);

  const isSaved = project.keeping === 'saved';
  const panel = useMemo(
    () =>
      sheet?.revisionOf ? (
        <RevisionPanel
          api={api}
          projectId={projectId}
          document={document}
          sheet={sheet}
          unit={unit}
          isSaved={isSaved}
          comparison={comparison}
          isCompared={isCompared}
          onCompare={setIsCompared}
          onSwap={setIsSwapped}
        />
      ) : null,
    [api, projectId, document, sheet, unit, isSaved, comparison, isCompared],
  );

  const done = (sheetId: SheetId) => {
    setRevising(null);
    session.refresh().then(() => {
      const { runIds, runs } = session.state().document;
      setIsCompared(true);
      over.onRevised(sheetId, runIds.find((runId) => runs[runId]?.sheetId === sheetId) ?? null);
    }, over.onTrouble);
  };
  const begin = useCallback((taken: TakenIn, follows: Follows) => setRevising({ taken, follows }), []);
  return {
    revisable: document.sheetIds.flatMap((id) => {
      const one = document.sheets[id];
      if (!one || isSuperseded(document, id)) return [];
      return [{ id, name: one.name, revision: one.revisionOf?.revision ?? '' }];
    }),
    begin,
    dialog: revising && (
      <RevisionDialog
        api={api}
        projectId={projectId}
        document={document}
        taken={revising.taken}
        follows={revising.follows}
        oldPassword={passwordOf(document.sheets[revising.follows.sheetId]?.planSha256 ?? '')}
        onDone={done}
        onClose={() => setRevising(null)}
      />
    ),
    panel,
    shown,
  };
};
