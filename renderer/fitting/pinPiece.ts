import type { Command } from '../../src/document/command.ts';
import type { StationId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run, WantedStation } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { paperPointAt } from '../../src/measure/runPosition.ts';
import type { SheetScale } from '../../src/measure/tracedRun.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { usualWithinMm } from '../tools/stationTool.ts';

/**
 * A pin is a wish with no give: the same item, its centre where it stands now. A centre between two micrometres can't
 * be met exactly, so it may lie one micrometre off.
 */
const oneMicrometreMm = 0.001;

/** Whether a wish holds its piece in place. */
export const isPin = ({ withinMm }: Pick<WantedStation, 'withinMm'>): boolean => withinMm <= oneMicrometreMm;

/** "Keep this piece here and refit around it": holds a piece of a fit where it stands, as one undoable step. */
export const pinCommand = (
  document: ProjectDocument,
  run: Run,
  piece: FitAlternative['pieces'][number],
  given: { readonly scale: SheetScale; readonly freshId: () => string },
): Command | null => {
  const vertexId = run.frontLine[piece.straight]?.id;
  if (!vertexId) return null;
  const doubledUm = Math.round((piece.fromMm + piece.toMm) * 1000);
  const withinMm = doubledUm % 2 === 0 ? 0 : oneMicrometreMm;
  const centreMm = doubledUm / 2000;
  const at = paperPointAt(runAsTraced(run), piece.straight, centreMm, 0, given.scale);
  const wished = piece.wanted === undefined ? undefined : document.stations[piece.wanted as StationId];
  const step: Command = wished
    ? { type: 'change-station', stationId: wished.id, changes: { vertexId, at, withinMm } }
    : {
        type: 'want-station',
        station: {
          id: `station-${given.freshId()}` as StationId,
          runId: run.id,
          item: piece.item,
          vertexId,
          at,
          withinMm,
        },
      };
  return { type: 'together', label: 'Keep a piece where it stands', commands: [step] };
};

/** Lets go of a pin: a station stays wanted nearby, a piece that only fills is no longer asked for. */
export const releaseCommand = (station: WantedStation, range: StockRange | null): Command => {
  const item = range?.items.find(({ id }) => id === station.item);
  const step: Command =
    item && item.kind === 'module'
      ? { type: 'remove-station', stationId: station.id }
      : { type: 'change-station', stationId: station.id, changes: { withinMm: usualWithinMm } };
  return { type: 'together', label: 'Let go of a piece', commands: [step] };
};
