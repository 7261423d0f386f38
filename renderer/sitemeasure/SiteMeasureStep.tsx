import './SiteMeasureStep.css';
import { useState } from 'react';
import type { Command } from '../../src/document/command.ts';
import type { RunId, VertexId } from '../../src/document/ids.ts';
import { MINUS } from '../../src/units/digitGroups.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { JobField } from '../rail/JobField.tsx';
import { Length } from '../rail/Length.tsx';
import { LengthField } from '../rail/LengthField.tsx';
import type { SiteMeasureLine } from './siteMeasureLines.ts';

const today = () => new Date().toLocaleDateString('en-CA');

/** +/- of a tape or laser at k = 2 until another is typed, in mm (common practice, no source). */
const usualPlusMinusMm = 2;

const differenceWords = (line: SiteMeasureLine, measuredMm: number, unit: DisplayUnit): string => {
  const by = measuredMm - line.drawnMm;
  const length = formatLength(Math.abs(by), { unit });
  return Math.abs(by) < 0.05 ? 'as drawn' : `${by > 0 ? '+' : MINUS}${length} against the drawing`;
};

/**
 * The site measure: which straights to measure and why; what was measured goes back in, takes the drawing's place, and
 * the run is fitted anew with it.
 */
export const SiteMeasureStep = (props: {
  readonly lines: readonly SiteMeasureLine[];
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
  readonly onSelect: (runId: RunId) => void;
}) => {
  const { lines, unit } = props;
  const [by, setBy] = useState(() => lines.find(({ measure }) => measure)?.measure?.measuredBy ?? '');
  const [on, setOn] = useState(today);
  const [plusMinusMm, setPlusMinusMm] = useState(usualPlusMinusMm);
  const record = (line: SiteMeasureLine, lengthMm: number | null) => {
    props.onCommand({
      type: 'measure-on-site',
      runId: line.runId as RunId,
      vertexId: line.vertexId as VertexId,
      siteMeasure: lengthMm === null ? null : { lengthMm, plusMinusMm, measuredBy: by, measuredOn: on },
    });
  };
  if (lines.length === 0)
    return <p className="step-lead">What to measure on site is listed once runs are traced to scale.</p>;
  return (
    <>
      <p className="step-lead">
        Measure along the front line, corner to corner or to the finished wall. What is typed here takes the
        drawing’s place and the run is fitted anew; empty the field to go back to the drawing.
      </p>
      <div className="pair">
        <JobField label="Measured by" value={by} most={120} onChange={setBy} />
        <JobField label="On" type="date" value={on} onChange={setOn} />
      </div>
      <LengthField
        label="± of the measure (k = 2)"
        lengthMm={plusMinusMm}
        unit={unit}
        mostMm={1000}
        onChange={(mm) => setPlusMinusMm(mm ?? usualPlusMinusMm)}
      />
      <ul className="lines measure-lines">
        {lines.map((line) => {
          const { measure } = line;
          const isFar =
            measure !== null &&
            Math.abs(measure.lengthMm - line.drawnMm) >
              Math.hypot(line.drawnPlusMinusMm, measure.plusMinusMm);
          return (
            <li key={line.vertexId}>
              <button type="button" className="pick-name" onClick={() => props.onSelect(line.runId as RunId)}>
                {line.runName}, straight {line.straight}
              </button>
              <Length lengthMm={line.drawnMm} plusMinusMm={line.drawnPlusMinusMm} unit={unit} />
              {line.isArc ? (
                <span className="line-note">A curve: measure chord and rise, and trace it anew.</span>
              ) : (
                <LengthField
                  label="On site"
                  ofWhat={`, straight ${line.straight} of ${line.runName}`}
                  lengthMm={measure?.lengthMm ?? null}
                  unit={unit}
                  leastMm={1}
                  mostMm={100_000}
                  emptyWords={line.decides ? 'measure: it decides' : 'not measured'}
                  onChange={(lengthMm) => record(line, lengthMm)}
                />
              )}
              {measure ? (
                <span className={isFar ? 'line-note alert' : 'line-note'}>
                  {differenceWords(line, measure.lengthMm, unit)}
                  {isFar && ': more than the drawing’s ± allows. Check the reading, then the scale.'}
                  {[measure.measuredBy, measure.measuredOn].filter(Boolean).map((word) => `; ${word}`)}
                </span>
              ) : (
                line.why && <span className="line-note">{line.why}</span>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
};
