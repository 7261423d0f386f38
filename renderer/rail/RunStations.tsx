import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument, Run, WantedStation } from '../../src/document/projectDocument.ts';
import { handPairOf } from '../../src/stock/handPair.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { LengthField } from './LengthField.tsx';

/** The stations wanted on a run: how far each may stand off its place, and its hand where the range has both. */
export const RunStations = (props: {
  readonly document: ProjectDocument;
  readonly run: Run;
  readonly range: StockRange | null;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
  readonly onStation: (item: { readonly id: string; readonly name: string }) => void;
}) => {
  const { document, run, range, unit, onCommand } = props;
  const stations = Object.values(document.stations).filter((station) => station.runId === run.id);
  const itemOf = (id: string) => range?.items.find((item) => item.id === id);
  const nameOf = (id: string) => itemOf(id)?.name ?? id;
  const isHanded = ({ item: id }: WantedStation) => {
    const item = itemOf(id);
    return range !== null && item !== undefined && handPairOf(range, item) !== undefined;
  };
  const offered = range?.items.filter(({ kind }) => kind === 'station') ?? [];
  return (
    <>
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
                aria-label={`Remove ${nameOf(station.item)}`}
                onClick={() => onCommand({ type: 'remove-station', stationId: station.id })}
              >
                Remove
              </button>
              <div className={isHanded(station) ? 'line-note pair' : 'line-note'}>
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
                {isHanded(station) && (
                  <label className="field">
                    <span>Hand, from the working side</span>
                    <select
                      value={station.hand ?? ''}
                      onChange={(event) =>
                        onCommand({
                          type: 'change-station',
                          stationId: station.id,
                          changes: {
                            hand:
                              (['left', 'right'] as const).find((one) => one === event.target.value) ?? null,
                          },
                        })
                      }
                    >
                      <option value="">either</option>
                      <option value="left">left</option>
                      <option value="right">right</option>
                    </select>
                  </label>
                )}
              </div>
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
    </>
  );
};
