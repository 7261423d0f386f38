import { useState } from 'react';
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
import { LengthField } from './LengthField.tsx';

const treatmentWords: Readonly<Record<CornerTreatment, string>> = {
  'first-through': 'First straight runs through',
  'second-through': 'Second straight runs through',
  'corner-unit': 'Corner unit',
  mitre: 'Mitre, made to measure',
};

const endNames = ['Start', 'Finish'] as const;

/** A name that can be typed anew. */
const NameField = (props: { readonly name: string; readonly onChange: (name: string) => void }) => {
  const [text, setText] = useState<string | null>(null);
  const take = () => {
    const typed = text?.trim();
    setText(null);
    if (typed && typed !== props.name) props.onChange(typed);
  };
  return (
    <label className="field">
      <span>Name</span>
      <input
        value={text ?? props.name}
        maxLength={120}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
          if (event.key === 'Escape') setText(null);
        }}
      />
    </label>
  );
};

const EndFields = (props: {
  readonly run: Run;
  readonly unit: DisplayUnit;
  readonly onEnds: (ends: Run['ends']) => void;
}) => {
  const { run } = props;
  const change = (index: number, changes: Partial<Run['ends'][number]>) => {
    const [start, finish] = run.ends;
    props.onEnds(index === 0 ? [{ ...start, ...changes }, finish] : [start, { ...finish, ...changes }]);
  };
  return (
    <>
      {run.ends.map((end, index) => (
        <fieldset key={endNames[index]} className="end-fields">
          <legend>{endNames[index]}</legend>
          <label className="field">
            <span>Stops at</span>
            <select
              value={end.kind}
              onChange={(event) =>
                change(index, { kind: event.target.value === 'wall' ? 'wall' : 'exposed' })
              }
            >
              <option value="wall">a wall</option>
              <option value="exposed">an exposed end</option>
            </select>
          </label>
          {end.kind === 'exposed' && (
            <div className="pair">
              <LengthField
                label="May come in by"
                lengthMm={end.giveInMm}
                unit={props.unit}
                mostMm={5000}
                onChange={(mm) => mm !== null && change(index, { giveInMm: mm })}
              />
              <LengthField
                label="May go out by"
                lengthMm={end.giveOutMm}
                unit={props.unit}
                mostMm={5000}
                onChange={(mm) => mm !== null && change(index, { giveOutMm: mm })}
              />
            </div>
          )}
        </fieldset>
      ))}
    </>
  );
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
  const zones = Object.values(document.zones).filter((zone) => zone.runId === run.id);
  const stations = Object.values(document.stations).filter((station) => station.runId === run.id);
  const nameOf = (item: string) => props.range?.items.find(({ id }) => id === item)?.name ?? item;
  const offered = props.range?.items.filter(({ kind }) => kind === 'station') ?? [];
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
          <span>Back line</span>
          <select
            value={run.backSide}
            onChange={(event) => change({ backSide: event.target.value === 'left' ? 'left' : 'right' })}
          >
            <option value="left">left of the trace</option>
            <option value="right">right of the trace</option>
          </select>
        </label>
      </div>
      <EndFields run={run} unit={unit} onEnds={(ends) => change({ ends })} />

      {corners.length > 0 && <h3>Corners</h3>}
      {corners.map((corner) => {
        const vertex = run.frontLine[corner.index + 1];
        if (!vertex) return null;
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
                .filter((treatment) => corner.isRightAngle || treatment === 'mitre')
                .map((treatment) => (
                  <option key={treatment} value={treatment}>
                    {treatmentWords[treatment]}
                  </option>
                ))}
            </select>
          </label>
        );
      })}

      <h3>Openings and blocked zones</h3>
      {zones.length > 0 && (
        <ul className="lines">
          {zones.map((zone) => (
            <li key={zone.id}>
              <input
                className="bare-input"
                aria-label={`Name of the ${zone.kind === 'opening' ? 'opening' : 'blocked zone'}`}
                defaultValue={zone.name}
                maxLength={120}
                onBlur={(event) => {
                  const name = event.target.value.trim();
                  if (name && name !== zone.name)
                    onCommand({ type: 'change-zone', zoneId: zone.id, changes: { name } });
                }}
              />
              <button
                type="button"
                className="word-button"
                onClick={() => onCommand({ type: 'remove-zone', zoneId: zone.id })}
              >
                Remove
              </button>
              <span className="line-note">{zone.kind === 'opening' ? 'opening' : 'blocked'}</span>
            </li>
          ))}
        </ul>
      )}
      <div className="acts">
        <button type="button" className="word-button" onClick={() => props.onZone('opening')}>
          Mark an opening
        </button>
        <button type="button" className="word-button" onClick={() => props.onZone('blocked')}>
          Mark a blocked zone
        </button>
      </div>

      <h3>Stations wanted</h3>
      {stations.length > 0 && (
        <ul className="lines">
          {stations.map((station) => (
            <li key={station.id}>
              <span className="line-name" title={nameOf(station.item)}>
                {nameOf(station.item)}
              </span>
              <button
                type="button"
                className="word-button"
                onClick={() => onCommand({ type: 'remove-station', stationId: station.id })}
              >
                Remove
              </button>
              <span className="line-note">
                <LengthField
                  label="May stand off its place by"
                  lengthMm={station.withinMm}
                  unit={unit}
                  mostMm={50_000}
                  onChange={(mm) =>
                    mm !== null &&
                    onCommand({ type: 'change-station', stationId: station.id, changes: { withinMm: mm } })
                  }
                />
              </span>
            </li>
          ))}
        </ul>
      )}
      <label className="field">
        <span>Want a station</span>
        <select
          value=""
          disabled={offered.length === 0}
          onChange={(event) => {
            const item = offered.find(({ id }) => id === event.target.value);
            if (item) props.onStation(item);
          }}
        >
          <option value="">Choose, then pick its place …</option>
          {offered.map((item) => (
            <option key={item.id} value={item.id}>
              {item.name}
            </option>
          ))}
        </select>
      </label>

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
        className="word-button alert"
        onClick={() => onCommand({ type: 'remove-run', runId: run.id })}
      >
        Remove this run
      </button>
    </section>
  );
};
