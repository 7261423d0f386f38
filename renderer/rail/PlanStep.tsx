import type { ReactNode } from 'react';
import type { SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument, Sheet } from '../../src/document/projectDocument.ts';
import { isSuperseded } from '../../src/document/runsInForce.ts';
import type { SheetReading } from '../project/useSheetReading.ts';
import { LayerList } from './LayerList.tsx';

/** The sheets of the project, and a way to take in another plan. */
export const PlanStep = (props: {
  readonly document: ProjectDocument;
  readonly sheetId: SheetId | null;
  readonly onSheet: (sheetId: SheetId) => void;
  readonly onTakeIn: () => void;
  readonly onRemove: (sheetId: SheetId) => void;
  readonly reading: SheetReading;
  readonly onLayers: (sheetId: SheetId, layers: Sheet['layers']) => void;
  /** What there is to say of a sheet that follows another; null for one that does not. */
  readonly revision: ReactNode;
}) => (
  <>
    {props.document.sheetIds.length === 0 && (
      <p className="step-lead">
        Take in the architect’s plan as a PDF, or drop it on the board. The file is kept as it came. Its scale
        is next.
      </p>
    )}
    {props.document.sheetIds.length > 0 && (
      <ul className="lines">
        {props.document.sheetIds.map((sheetId) => {
          const sheet = props.document.sheets[sheetId];
          if (!sheet) return null;
          const isCurrent = sheetId === props.sheetId;
          return (
            <li key={sheetId} className={isCurrent ? 'is-selected' : undefined}>
              <button
                type="button"
                className="pick-name"
                aria-current={isCurrent}
                title={sheet.name}
                onClick={() => props.onSheet(sheetId)}
              >
                {sheet.name}
              </button>
              <button type="button" className="word-button" onClick={() => props.onRemove(sheetId)}>
                Remove
              </button>
              <span className="line-note" title={sheet.planFileName}>
                {sheet.planFileName}, page {sheet.pageNumber}
                {isSuperseded(props.document, sheetId) && '; superseded: neither priced nor issued'}
              </span>
            </li>
          );
        })}
      </ul>
    )}
    {props.revision}
    <CurrentLayers {...props} />
    <div className="acts">
      <button type="button" className="plain-button" onClick={props.onTakeIn}>
        Take in a plan …
      </button>
    </div>
  </>
);

const CurrentLayers = (props: Parameters<typeof PlanStep>[0]) => {
  const { document, sheetId, reading } = props;
  const sheet = sheetId && document.sheets[sheetId];
  if (!sheet || reading.status !== 'ready' || reading.answer.layers.length === 0) return null;
  return (
    <LayerList
      sheet={sheet}
      layers={reading.answer.layers}
      onChange={(layers) => props.onLayers(sheet.id, layers)}
    />
  );
};
