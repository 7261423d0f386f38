import type { AcceptedScale } from '../../src/document/projectDocument.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import type { ScaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import type { ReadAnswer } from '../../src/scale/readContract.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { SheetReading } from '../project/useSheetReading.ts';
import { percentWords, ratioWords } from './scaleWords.ts';
import { stretchOf } from './stretchOf.ts';

type Evidence = ReadAnswer['scale']['evidence'][number];

const kindWords: Readonly<Record<Evidence['kind'], string>> = {
  note: 'Scale note',
  dimensions: 'Its dimensions',
  'measure-dictionary': 'Embedded measure',
  picked: 'Picked',
};

const statusWords = {
  agreed: 'Its own evidence agrees',
  single: 'One kind of evidence, unconfirmed',
  conflict: 'Its evidence disagrees: check before you trust it',
} as const;

/** How many odd dimensions stand in the rail at once; the rest is counted. */
const oddShown = 8;

const evidenceNote = (evidence: Evidence): string => {
  if (evidence.kind !== 'dimensions' || evidence.of === undefined) return evidence.text ?? '';
  const unit = evidence.unit ? `, in ${evidence.unit}${evidence.unitAssumed ? ' (assumed)' : ''}` : '';
  return `${evidence.supporting} of ${evidence.of} dimensions agree${unit}`;
};

const placesOf = (dimension: {
  readonly at: readonly [number, number];
  readonly span?: readonly [readonly [number, number], readonly [number, number]] | undefined;
}): readonly PaperPoint[] => [dimension.at, ...(dimension.span ?? [])].map(([x, y]) => paperPoint(x, y));

/** Dimensions that the drawing contradicts, and chains that do not add up: each leads to its place. */
const OddDimensions = (props: {
  readonly dimensions: NonNullable<ReadAnswer['dimensions']>;
  readonly unit: DisplayUnit;
  readonly onShow: (points: readonly PaperPoint[]) => void;
}) => {
  const { disagreeing, chains = [] } = props.dimensions;
  const length = (mm: number) => formatLength(mm, { unit: props.unit });
  if (disagreeing.length + chains.length === 0) return null;
  return (
    <>
      <h3>Dimensions that do not agree</h3>
      <ul className="lines">
        {disagreeing.slice(0, oddShown).map((dimension) => (
          <li key={`${dimension.text} ${dimension.at.join(' ')}`}>
            <button type="button" className="pick-name" onClick={() => props.onShow(placesOf(dimension))}>
              {dimension.text}
            </button>
            <span>drawn {length(dimension.drawnMm)}</span>
          </li>
        ))}
        {chains.slice(0, oddShown).map((chain) => (
          <li key={`chain ${chain.text} ${chain.at.join(' ')}`}>
            <button type="button" className="pick-name" onClick={() => props.onShow(placesOf(chain))}>
              {chain.text}
            </button>
            <span>its parts add up to {length(chain.sumMm)}</span>
          </li>
        ))}
      </ul>
      {disagreeing.length > oddShown && <p className="step-lead">and {disagreeing.length - oddShown} more</p>}
    </>
  );
};

/** Parts of the sheet that have a scale of their own. */
const Views = (props: {
  readonly views: NonNullable<ReadAnswer['scale']['views']>;
  readonly onShow: (points: readonly PaperPoint[]) => void;
}) => (
  <>
    <h3>Views with a scale of their own</h3>
    <ul className="lines">
      {props.views.map((view, index) => {
        const [xMin, yMin, xMax, yMax] = view.bbox;
        return (
          <li key={view.bbox.join(' ')}>
            <button
              type="button"
              className="pick-name"
              onClick={() => props.onShow([paperPoint(xMin, yMin), paperPoint(xMax, yMax)])}
            >
              {view.name || `View ${index + 1}`}
            </button>
            <span>{view.scale.ratio === null ? 'not known' : ratioWords(view.scale.ratio)}</span>
          </li>
        );
      })}
    </ul>
  </>
);

/** The views whose scale is known, as the project keeps them. */
const viewsToKeep = (views: NonNullable<ReadAnswer['scale']['views']>): AcceptedScale['views'] =>
  views.flatMap(({ bbox, name = '', scale: { ratio, relativeUncertainty } }) =>
    ratio === null || relativeUncertainty === null ? [] : [{ bbox, name, ratio, relativeUncertainty }],
  );

/** Why the sheet gives no scale, and what to do. */
const noScaleWords = ({ linework, text, isPicture }: ReadAnswer): string => {
  const isBare = linework.segments + linework.curves === 0;
  if (isPicture || (isBare && text > 0))
    return 'This sheet is a picture: it has no lines to read a scale from. Pick a dimension whose length you know.';
  if (isBare)
    return 'Nothing is drawn on this page: no lines, no text, no picture. Take in another page of the plan.';
  return 'The sheet gives no scale of its own that can be trusted. Pick a dimension whose length you know.';
};

/** What the sheet says of its own scale, to take over or to doubt. */
export const SheetEvidence = (props: {
  readonly reading: SheetReading;
  readonly scale: ScaleOfSheet | null;
  readonly unit: DisplayUnit;
  readonly onAccept: (scale: AcceptedScale) => void;
  readonly onShow: (points: readonly PaperPoint[]) => void;
}) => {
  const { reading, scale, onShow } = props;
  if (reading.status === 'reading')
    return (
      <p className="step-lead" role="status">
        Reading the sheet’s dimensions and notes …
      </p>
    );
  if (reading.status === 'failed') return <p className="alert">{reading.message}</p>;
  if (reading.status !== 'ready') return null;
  const { answer } = reading;
  const { ratio, relativeUncertainty, status, evidence, views, printedFactor } = answer.scale;
  // That it is a picture is said in the words above them.
  const told = (answer.remarks ?? []).filter(({ code }) => code !== 'picture-sheet');
  const remarks = told.map(({ code, message }) => (
    <p key={`${code} ${message}`} className="step-lead">
      {message}
    </p>
  ));
  if (status === 'none' || ratio === null || relativeUncertainty === null)
    return (
      <>
        <p className="step-lead">{noScaleWords(answer)}</p>
        {remarks}
      </>
    );
  const stretch = stretchOf(scale, answer.scale);
  const isOneWay = stretch !== null && scale?.source === 'picked' && scale.ratioX === undefined;
  const off = scale ? Math.abs(scale.ratio / ratio - 1) : 0;
  const disagrees = scale !== null && off > (scale.relativeUncertainty + relativeUncertainty) * 1.5 + 0.002;
  return (
    <>
      <h3>What the sheet says</h3>
      <ul className="lines">
        {evidence.map((one) => (
          <li key={`${one.kind} ${one.ratio} ${one.text ?? ''}`}>
            <span className="line-name">{kindWords[one.kind]}</span>
            <span>{ratioWords(one.ratio)}</span>
            <span className="line-note">{evidenceNote(one)}</span>
          </li>
        ))}
      </ul>
      <p className={status === 'conflict' || disagrees ? 'alert' : 'step-lead'}>
        {disagrees
          ? `Your picked dimensions give ${ratioWords(scale.ratio)}, the sheet itself ${ratioWords(ratio)}. One of them is wrong.`
          : `${statusWords[status]}: ${ratioWords(ratio)} ${percentWords(relativeUncertainty)}.`}
      </p>
      {printedFactor !== undefined && Math.abs(printedFactor - 1) > 0.01 && (
        <p className="step-lead">
          Printed at {Math.round(printedFactor * 1000) / 10}% of the size that its note names.
        </p>
      )}
      {remarks}
      {isOneWay && (
        <p className="alert">
          Your picked dimensions run one way only: lengths the other way are wrong by up to{' '}
          {percentWords(stretch).slice(2)}. Ask for a plan that is not stretched, or measure on site.
        </p>
      )}
      {answer.dimensions && (
        <OddDimensions dimensions={answer.dimensions} unit={props.unit} onShow={onShow} />
      )}
      {views && views.length > 1 && <Views views={views} onShow={onShow} />}
      {!scale && (
        <div className="acts">
          <button
            type="button"
            className="main-button"
            onClick={() =>
              props.onAccept({
                ratio,
                relativeUncertainty,
                because: statusWords[status],
                ...(answer.scale.ratioX !== undefined && answer.scale.ratioY !== undefined
                  ? { ratioX: answer.scale.ratioX, ratioY: answer.scale.ratioY }
                  : {}),
                ...(views && views.length > 1 ? { views: viewsToKeep(views) } : {}),
              })
            }
          >
            Work at {ratioWords(ratio)}
          </button>
        </div>
      )}
    </>
  );
};
