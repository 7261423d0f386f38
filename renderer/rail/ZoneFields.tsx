import type { Command } from '../../src/document/command.ts';
import type { BayClearance, ProjectDocument, Run, Zone } from '../../src/document/projectDocument.ts';
import { bayChecks } from '../../src/measure/bayChecks.ts';
import { rulesOfLowSection } from '../../src/measure/rulesOfLowSection.ts';
import { placeOfZone, zoneMovedTo } from '../../src/measure/zonePlace.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { BayServices } from './BayServices.tsx';
import { BayVerdicts } from './BayVerdicts.tsx';
import { LengthField } from './LengthField.tsx';
import { LowSectionVerdicts } from './LowSectionVerdicts.tsx';
import { NameField } from './NameField.tsx';
import { zoneKinds, zoneWords } from './zoneWords.ts';

const noClearance: BayClearance = { beforeMm: 0, afterMm: 0, heightMm: 0, doorSwingMm: 0 };

/** Picks are not finer than a tenth of a millimetre. */
const tenths = (mm: number): number => Math.round(mm * 10) / 10;

type ZoneChanges = Extract<Command, { type: 'change-zone' }>['changes'];

/** Everything of one zone that is typed or chosen, with what follows from it. */
export const ZoneFields = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly zone: Zone;
  readonly range: StockRange | null;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
}) => {
  const { document, run, zone, range, unit } = props;
  const change = (changes: ZoneChanges) => props.onCommand({ type: 'change-zone', zoneId: zone.id, changes });
  const place = placeOfZone(document, zone);
  const move = (fromMm: number, widthMm: number) => {
    const points = zoneMovedTo(document, zone, { fromMm, widthMm });
    if (points) change(points);
  };
  const clearance = zone.clearance ?? noClearance;
  const clear = (changes: Partial<BayClearance>) => change({ clearance: { ...clearance, ...changes } });
  const straight = run.frontLine.findIndex(({ id }) => id === zone.vertexId);
  return (
    <div className="zone-fields">
      <NameField
        label={zone.kind === 'bay' ? 'Equipment, by others' : 'Name'}
        name={zone.name}
        onChange={(name) => change({ name })}
      />
      <label className="field">
        <span>Is</span>
        <select
          value={zone.kind}
          onChange={(event) => {
            const kind = zoneKinds.find((one) => one === event.target.value);
            if (kind) change({ kind });
          }}
        >
          {zoneKinds.map((kind) => (
            <option key={kind} value={kind}>
              {{ opening: 'an opening', blocked: 'blocked', bay: 'a bay', low: 'a low section' }[kind]}
            </option>
          ))}
        </select>
      </label>
      {place && (
        <div className="pair">
          <LengthField
            label="Width"
            lengthMm={tenths(place.toMm - place.fromMm)}
            unit={unit}
            leastMm={1}
            mostMm={100_000}
            onChange={(mm) => mm !== null && move(place.fromMm, mm)}
          />
          <LengthField
            label={run.frontLine.length > 2 ? `Along straight ${straight + 1}` : 'From the start'}
            lengthMm={tenths(place.fromMm)}
            unit={unit}
            leastMm={-10_000}
            mostMm={100_000}
            onChange={(mm) => mm !== null && move(mm, place.toMm - place.fromMm)}
          />
        </div>
      )}
      {zone.kind === 'bay' && (
        <>
          <div className="pair">
            {(
              [
                ['beforeMm', 'Clear at its start'],
                ['afterMm', 'Clear at its finish'],
                ['heightMm', 'Height needed'],
                ['doorSwingMm', 'Door swings out'],
              ] as const
            ).map(([key, label]) => (
              <LengthField
                key={key}
                label={label}
                lengthMm={clearance[key]}
                unit={unit}
                mostMm={5000}
                onChange={(mm) => mm !== null && clear({ [key]: mm })}
              />
            ))}
          </div>
          <BayServices
            zone={zone}
            widthMm={place ? place.toMm - place.fromMm : 600}
            unit={unit}
            onChange={change}
          />
          {range && <BayNotes document={document} zone={zone} range={range} unit={unit} />}
        </>
      )}
      {zone.kind === 'low' && (
        <>
          <LengthField
            label="Its top above the floor"
            lengthMm={zone.topHeightMm ?? null}
            unit={unit}
            leastMm={100}
            mostMm={3000}
            emptyWords={
              range ? `${formatLength(range.heights.lowSectionTopMm, { unit })}, as the range has it` : ''
            }
            onChange={(topHeightMm) => change({ topHeightMm })}
          />
          {range && (
            <LowSectionVerdicts rules={rulesOfLowSection(document, zone, range.heights)} unit={unit} />
          )}
        </>
      )}
      {zone.kind === 'blocked' && (
        <>
          <label className="field">
            <span>Takes</span>
            <select
              value={zone.columnDepthMm ? 'back' : 'whole'}
              onChange={(event) =>
                change({ columnDepthMm: event.target.value === 'back' ? Math.round(run.depthMm / 2) : null })
              }
            >
              <option value="whole">the whole depth</option>
              <option value="back">only the back</option>
            </select>
          </label>
          {zone.columnDepthMm != null && (
            <LengthField
              label={`Of ${formatLength(run.depthMm, { unit })}, it takes`}
              lengthMm={zone.columnDepthMm}
              unit={unit}
              leastMm={1}
              mostMm={5000}
              onChange={(mm) => mm !== null && change({ columnDepthMm: mm })}
            />
          )}
        </>
      )}
      <button
        type="button"
        className="word-button"
        aria-label={`Remove ${zone.name}, ${zoneWords[zone.kind].noun}`}
        onClick={() => props.onCommand({ type: 'remove-zone', zoneId: zone.id })}
      >
        Remove
      </button>
    </div>
  );
};

const BayNotes = (props: {
  readonly document: ProjectDocument;
  readonly zone: Zone;
  readonly range: StockRange;
  readonly unit: DisplayUnit;
}) => {
  const checks = bayChecks(props.document, props.zone, props.range.heights);
  return checks && <BayVerdicts checks={checks} unit={props.unit} />;
};
