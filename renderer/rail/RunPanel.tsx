import type { Command } from '../../src/document/command.ts';
import type { Zone } from '../../src/document/projectDocument.ts';
import {
  type CornerTreatment,
  cornerTreatments,
  type ProjectDocument,
  type Run,
} from '../../src/document/projectDocument.ts';
import { cornersOf } from '../../src/measure/corners.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { shortNameOf } from '../fitting/pieceNames.ts';
import { LengthField } from './LengthField.tsx';
import { NameField } from './NameField.tsx';
import { RunEnds } from './RunEnds.tsx';
import { RunLevelsFields } from './RunLevelsFields.tsx';
import { RunStations } from './RunStations.tsx';
import { RunSymmetry } from './RunSymmetry.tsx';
import { RunZones } from './RunZones.tsx';

const treatmentWords: Readonly<Record<CornerTreatment, string>> = {
  'first-through': 'First straight runs through',
  'second-through': 'Second straight runs through',
  'corner-unit': 'Corner unit',
  mitre: 'Mitre, made to measure',
};

/** Everything of the selected run that is typed or chosen rather than drawn. */
export const RunPanel = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly range: StockRange | null;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
  readonly onZone: (kind: Zone['kind']) => void;
  readonly onStation: (item: { readonly id: string; readonly name: string }) => void;
}) => {
  const { document, run, unit, onCommand } = props;
  const change = (changes: Extract<Command, { type: 'change-run' }>['changes']) =>
    onCommand({ type: 'change-run', runId: run.id, changes });
  const corners = cornersOf(runAsTraced(run), document.sheets[run.sheetId]?.userUnit ?? 1);
  return (
    <section className="run-panel" aria-label={run.name}>
      <NameField key={run.id} name={run.name} onChange={(name) => change({ name })} />
      <div className="pair">
        <LengthField
          label="Depth"
          lengthMm={run.depthMm}
          unit={unit}
          leastMm={50}
          mostMm={5000}
          onChange={(mm) => mm !== null && change({ depthMm: mm })}
        />
        <label className="field">
          <span title="As seen along the trace, from its start">Back line</span>
          <select
            value={run.backSide}
            onChange={(event) => change({ backSide: event.target.value === 'left' ? 'left' : 'right' })}
          >
            <option value="left">on its left</option>
            <option value="right">on its right</option>
          </select>
        </label>
      </div>
      <RunEnds document={document} run={run} unit={unit} onEnds={(ends) => change({ ends })} />

      {corners.length > 0 && <h3>Corners</h3>}
      {corners.map((corner) => {
        const vertex = run.frontLine[corner.index + 1];
        if (!vertex) return null;
        if (corner.isTangent)
          return (
            <p key={vertex.id} className="quiet">
              {corner.index + 1}: no turn, a plain joint where the arc begins or ends.
            </p>
          );
        const isBesideArc = [run.frontLine[corner.index], vertex].some((one) => one?.through !== undefined);
        return (
          <label key={vertex.id} className="field">
            <span>
              {corner.index + 1}: {Math.round(corner.innerAngleDeg * 10) / 10}°, front{' '}
              {corner.turnDeg > 0 ? 'outside' : 'inside'}
            </span>
            <select
              value={vertex.treatment ?? ''}
              onChange={(event) =>
                onCommand({
                  type: 'pin-corner',
                  runId: run.id,
                  vertexId: vertex.id,
                  treatment: cornerTreatments.find((one) => one === event.target.value) ?? null,
                })
              }
            >
              <option value="">As fits best</option>
              {cornerTreatments
                .filter((treatment) => (corner.isRightAngle && !isBesideArc) || treatment === 'mitre')
                .map((treatment) => (
                  <option key={treatment} value={treatment}>
                    {treatmentWords[treatment]}
                  </option>
                ))}
            </select>
          </label>
        );
      })}

      <RunZones
        key={`zones ${run.id}`}
        document={document}
        run={run}
        range={props.range}
        unit={unit}
        onCommand={onCommand}
        onZone={props.onZone}
      />
      <RunStations
        document={document}
        run={run}
        range={props.range}
        unit={unit}
        onCommand={onCommand}
        onStation={props.onStation}
      />
      <RunSymmetry
        document={document}
        run={run}
        nameOf={(item) => shortNameOf(props.range, item)}
        onSymmetrical={(symmetrical) => change({ symmetrical })}
      />
      <RunLevelsFields run={run} range={props.range} unit={unit} onLevels={(levels) => change({ levels })} />

      <details>
        <summary>Allowances and limits</summary>
        <div className="pair">
          {(['jointMm', 'scribeMm', 'endPanelMm', 'claddingMm'] as const).map((key) => (
            <LengthField
              key={key}
              label={
                {
                  jointMm: 'Each joint',
                  scribeMm: 'Scribe at walls',
                  endPanelMm: 'End panel',
                  claddingMm: 'Cladding',
                }[key]
              }
              lengthMm={run.allowances[key]}
              unit={unit}
              mostMm={1000}
              onChange={(mm) => mm !== null && change({ allowances: { ...run.allowances, [key]: mm } })}
            />
          ))}
          <LengthField
            label="Filler at most"
            lengthMm={run.fillerMaxMm}
            unit={unit}
            mostMm={2000}
            onChange={(mm) => mm !== null && change({ fillerMaxMm: mm })}
          />
          <LengthField
            label="Widest piece"
            lengthMm={run.maxWidthMm}
            unit={unit}
            leastMm={100}
            emptyWords="no limit"
            onChange={(mm) => change({ maxWidthMm: mm })}
          />
        </div>
      </details>
      <button
        type="button"
        className="word-button"
        onClick={() => onCommand({ type: 'remove-run', runId: run.id })}
      >
        Remove this run
      </button>
    </section>
  );
};
