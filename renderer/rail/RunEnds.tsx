import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import { runMetAt } from '../../src/measure/runMet.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { LengthField } from './LengthField.tsx';

const endNames = ['Start', 'Finish'] as const;

type End = Run['ends'][number];

const kindWords: Readonly<Record<End['kind'], string>> = {
  wall: 'a wall',
  exposed: 'an exposed end',
  meets: 'another run',
};

/** An end of this kind with what belongs to it, and nothing of another kind. */
const endOfKind = (end: End, kind: End['kind'], meetsRunId?: RunId): End => ({
  kind,
  giveInMm: end.giveInMm,
  giveOutMm: end.giveOutMm,
  ...(kind === 'meets' && meetsRunId ? { meetsRunId } : {}),
});

/** How a run stops at its start and at its finish. */
export const RunEnds = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly unit: DisplayUnit;
  readonly onEnds: (ends: Run['ends']) => void;
}) => {
  const { document, run, unit } = props;
  const others = document.runIds.flatMap((id) => {
    const other = document.runs[id];
    return other && id !== run.id && other.sheetId === run.sheetId ? [other] : [];
  });
  const put = (index: number, end: End) => {
    const [start, finish] = run.ends;
    props.onEnds(index === 0 ? [end, finish] : [start, end]);
  };
  return (
    <>
      {run.ends.map((end, index) => {
        const met = end.kind === 'meets' ? null : runMetAt(document, run, index === 0 ? 'start' : 'finish');
        return (
          <fieldset key={endNames[index]} className="end-fields">
            <legend>{endNames[index]}</legend>
            <label className="field">
              <span>Stops at</span>
              <select
                value={end.kind}
                onChange={(event) => {
                  const kind = (Object.keys(kindWords) as End['kind'][]).find(
                    (one) => one === event.target.value,
                  );
                  const nearest = runMetAt(document, run, index === 0 ? 'start' : 'finish');
                  if (kind) put(index, endOfKind(end, kind, nearest?.id));
                }}
              >
                {(Object.keys(kindWords) as End['kind'][])
                  .filter((kind) => kind !== 'meets' || others.length > 0 || end.kind === 'meets')
                  .map((kind) => (
                    <option key={kind} value={kind}>
                      {kindWords[kind]}
                    </option>
                  ))}
              </select>
            </label>
            {met && (
              <p className="end-offer">
                It lies on the outline of {met.name}.{' '}
                <button
                  type="button"
                  className="word-button"
                  onClick={() => put(index, endOfKind(end, 'meets', met.id))}
                >
                  It meets {met.name}
                </button>
              </p>
            )}
            {end.kind === 'meets' && (
              <label className="field end-wide">
                <span>Meets</span>
                <select
                  value={end.meetsRunId && document.runs[end.meetsRunId] ? end.meetsRunId : ''}
                  onChange={(event) =>
                    put(
                      index,
                      endOfKind(end, 'meets', others.find(({ id }) => id === event.target.value)?.id),
                    )
                  }
                >
                  <option value="">one that is not traced</option>
                  {others.map(({ id, name }) => (
                    <option key={id} value={id}>
                      {name}
                    </option>
                  ))}
                </select>
              </label>
            )}
            {end.kind === 'exposed' && (
              <div className="pair">
                <LengthField
                  label="May come in by"
                  lengthMm={end.giveInMm}
                  unit={unit}
                  mostMm={5000}
                  onChange={(mm) => mm !== null && put(index, { ...end, giveInMm: mm })}
                />
                <LengthField
                  label="May go out by"
                  lengthMm={end.giveOutMm}
                  unit={unit}
                  mostMm={5000}
                  onChange={(mm) => mm !== null && put(index, { ...end, giveOutMm: mm })}
                />
              </div>
            )}
          </fieldset>
        );
      })}
    </>
  );
};
