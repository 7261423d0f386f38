import type { Command } from '../../src/document/command.ts';
import { copyRun, mirrorRun } from '../../src/document/copyRun.ts';
import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { placeInFront, placeMirrored } from '../../src/measure/runPlacing.ts';
import { drawnScaleOfRun } from '../../src/measure/scaleOfSheet.ts';
import { otherHandOf } from '../../src/stock/otherHand.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { freshId } from '../project/freshId.ts';

/** What can be done with a run as a whole: copied, mirrored, listed (and so numbered) earlier or later. */
export const RunActs = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly range: StockRange | null;
  readonly onCommand: (command: Command) => void;
  readonly onSelect: (runId: RunId) => void;
}) => {
  const { document, run, range } = props;
  const index = document.runIds.indexOf(run.id);
  const scale = drawnScaleOfRun(document, run);
  const mirroredItem = (id: string): string => {
    const item = range?.items.find((one) => one.id === id);
    return (range && item && otherHandOf(range, item)?.id) ?? id;
  };
  const traced = runAsTraced(run);
  const copy = (isMirrored: boolean) => {
    if (!scale) return;
    const inFront = placeInFront(traced, scale);
    const mirrored = placeMirrored(traced);
    const copied = copyRun(document, run.id, {
      place: isMirrored ? (point) => inFront(mirrored(point)) : inFront,
      isMirrored,
      mirroredItem,
      freshId,
    });
    if (!copied) return;
    props.onCommand(copied.command);
    props.onSelect(copied.runId);
  };
  const mirror = () => {
    const command = mirrorRun(document, run.id, { place: placeMirrored(traced), mirroredItem });
    if (command) props.onCommand(command);
  };
  const move = (by: 1 | -1) => {
    const runIds = document.runIds.filter((id) => id !== run.id);
    runIds.splice(index + by, 0, run.id);
    props.onCommand({ type: 'order-runs', runIds });
  };
  const act = (words: string, title: string, isOffered: boolean, onClick: () => void) => (
    <button type="button" className="word-button" title={title} disabled={!isOffered} onClick={onClick}>
      {words}
    </button>
  );
  return (
    <fieldset className="run-acts acts">
      <legend className="visually-hidden">With {run.name}</legend>
      {act('Copy', 'With its zones, stations and levels; it lies in front', scale !== null, () =>
        copy(false),
      )}
      {act('Copy mirrored', 'A mirror image in front; hands change over', scale !== null, () => copy(true))}
      {act('Mirror', 'Start for finish, where it lies; hands change over', true, mirror)}
      {document.runIds.length > 1 && (
        <>
          {act('Earlier', `Becomes run ${index}`, index > 0, () => move(-1))}
          {act('Later', `Becomes run ${index + 2}`, index < document.runIds.length - 1, () => move(1))}
        </>
      )}
    </fieldset>
  );
};
