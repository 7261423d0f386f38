import './ClashNotice.css';
import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { scaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { straightsOf } from '../../src/measure/straights.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { ChangedPart } from './changedParts.ts';
import type { Clash, ClashSide, ProjectSession } from './projectSession.ts';

const counted = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

const runWords = (document: ProjectDocument, runId: string, unit: DisplayUnit): string => {
  const run = document.runs[runId as RunId];
  if (!run) return 'not there any more';
  const scale = scaleOfSheet(document, run.sheetId);
  const straights = scale ? straightsOf(runAsTraced(run), scale) : [];
  const lengthMm = straights.reduce((sum, straight) => sum + straight.lengthMm, 0);
  return [
    run.name,
    scale ? `${formatLength(lengthMm, { unit })} long` : 'no length yet',
    `${formatLength(run.depthMm, { unit })} deep`,
    counted(run.frontLine.length, 'point'),
    document.keptFits[run.id] ? 'a fit kept' : 'no fit kept',
  ].join(', ');
};

const jobWords = (document: ProjectDocument, key: string): string => {
  const value = document.job[key.slice('job '.length) as keyof ProjectDocument['job']];
  return typeof value === 'string' ? value || 'empty' : `${value.length}`;
};

/** What one side has of a part, in words; null where only the drawing can tell. */
const partWords = (document: ProjectDocument, part: ChangedPart, unit: DisplayUnit): string | null => {
  if (part.runId !== null) return runWords(document, part.runId, unit);
  return part.key.startsWith('job ') ? jobWords(document, part.key) : null;
};

const sides: readonly { readonly side: ClashSide; readonly words: string }[] = [
  { side: 'mine', words: 'Yours' },
  { side: 'theirs', words: 'The other window’s' },
];

/** The same thing was changed here and in another window: both to look at, and the choice. */
export const ClashNotice = (props: {
  readonly clash: Clash;
  readonly unit: DisplayUnit;
  readonly session: ProjectSession;
}) => {
  const { clash, unit, session } = props;
  return (
    <section className="clash-notice" role="alertdialog" aria-label="Changed in two windows">
      <p>
        Another window changed {clash.parts.map(({ words }) => words).join(', ')} while you did. Yours is not
        saved yet: look at both, then choose.
      </p>
      <div className="clash-sides">
        {sides.map(({ side, words }) => (
          <section key={side} className={clash.showing === side ? 'is-shown' : undefined}>
            <button
              type="button"
              className="word-button"
              aria-pressed={clash.showing === side}
              onClick={() => session.lookAt(side)}
            >
              {words}
              {clash.showing === side ? ', on the sheet now' : ': show it'}
            </button>
            {clash.parts.map((part) => (
              <p key={part.key}>{partWords(clash[side], part, unit) ?? `${part.words}: see the sheet`}</p>
            ))}
            <button type="button" className="plain-button" onClick={() => session.settleClash(side)}>
              {side === 'mine' ? 'Keep yours' : 'Keep the other’s'}
            </button>
          </section>
        ))}
      </div>
      <p className="quiet">
        Kept yours, the other’s stays in the history; kept the other’s, yours is given up.
      </p>
    </section>
  );
};
