import { useState } from 'react';
import type { Command } from '../../src/document/command.ts';
import type { ZoneId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run, Zone } from '../../src/document/projectDocument.ts';
import { bayChecks } from '../../src/measure/bayChecks.ts';
import { documentAsMeasured } from '../../src/measure/documentAsMeasured.ts';
import { rulesOfLowSection } from '../../src/measure/rulesOfLowSection.ts';
import { placeAsMeasured } from '../../src/measure/zonePlace.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { isBayInTrouble } from './BayVerdicts.tsx';
import { ZoneFields } from './ZoneFields.tsx';
import { zoneKinds, zoneWords } from './zoneWords.ts';

/** So many lines are read at a glance; more on demand. */
const linesAtFirst = 30;

/** What a zone's line says beside its name, and whether it needs to be looked at. */
const noteOf = (
  document: ProjectDocument,
  run: Run,
  zone: Zone,
  range: StockRange | null,
  unit: DisplayUnit,
): { readonly words: string; readonly isAlert: boolean } => {
  if (zone.kind === 'bay' && range && isBayInTrouble(bayChecks(document, zone, range.heights)))
    return { words: 'bay: does not go here as described', isAlert: true };
  if (zone.kind === 'low' && range) {
    const rules = rulesOfLowSection(document, zone, range.heights);
    const met = rules.filter(({ verdict }) => verdict === 'met').length;
    return { words: `low section: ${met} of ${rules.length} published rules met`, isAlert: false };
  }
  if (zone.kind === 'blocked' && zone.columnDepthMm && zone.columnDepthMm < run.depthMm)
    return {
      words: `column, takes ${formatLength(zone.columnDepthMm, { unit })} at the back`,
      isAlert: false,
    };
  return { words: zoneWords[zone.kind].noun, isAlert: false };
};

/** The zones of a run: openings, blocked zones, bays and low sections; one at a time opens to be described. */
export const RunZones = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly range: StockRange | null;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
  readonly onZone: (kind: Zone['kind']) => void;
}) => {
  const { document, run, range, unit } = props;
  const [openId, setOpenId] = useState<ZoneId | null>(null);
  const [isWhole, setIsWhole] = useState(false);
  const straightOf = (zone: Zone) => run.frontLine.findIndex(({ id }) => id === zone.vertexId);
  const measured = documentAsMeasured(document);
  const zones = Object.values(document.zones)
    .filter(({ runId }) => runId === run.id)
    .map((zone) => ({ zone, place: placeAsMeasured(measured, zone) }))
    .sort(
      (one, other) =>
        straightOf(one.zone) - straightOf(other.zone) ||
        (one.place?.fromMm ?? 0) - (other.place?.fromMm ?? 0) ||
        (one.zone.id < other.zone.id ? -1 : 1),
    );
  const listed = isWhole ? zones : zones.slice(0, linesAtFirst);
  return (
    <>
      <h3>Openings, bays, low sections, columns</h3>
      {zones.length > 0 && (
        <ul className="lines zone-lines">
          {listed.map(({ zone, place }) => {
            const isOpen = zone.id === openId;
            const note = noteOf(document, run, zone, range, unit);
            return (
              <li key={zone.id} className={isOpen ? 'is-open' : undefined}>
                <button
                  type="button"
                  className="pick-name"
                  aria-expanded={isOpen}
                  title={zone.name}
                  onClick={() => setOpenId(isOpen ? null : zone.id)}
                >
                  <b>{zoneWords[zone.kind].letter}</b> {zone.name}
                </button>
                <span className="quiet">{place && formatLength(place.toMm - place.fromMm, { unit })}</span>
                <span className={note.isAlert ? 'line-note alert' : 'line-note'}>{note.words}</span>
                {isOpen && (
                  <ZoneFields
                    document={document}
                    run={run}
                    zone={zone}
                    range={range}
                    unit={unit}
                    onCommand={props.onCommand}
                  />
                )}
              </li>
            );
          })}
        </ul>
      )}
      {zones.length > listed.length && (
        <button type="button" className="word-button" onClick={() => setIsWhole(true)}>
          Show all {zones.length}
        </button>
      )}
      <p className="acts">
        <span className="quiet">Mark</span>
        {zoneKinds.map((kind) => (
          <button
            key={kind}
            type="button"
            className="word-button"
            aria-label={`Mark ${kind === 'opening' ? 'an' : 'a'} ${zoneWords[kind].noun}`}
            onClick={() => props.onZone(kind)}
          >
            {zoneWords[kind].mark}
          </button>
        ))}
      </p>
    </>
  );
};
