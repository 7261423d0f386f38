import type { Command } from '../../src/document/command.ts';
import { bayEquipmentKinds, type Zone } from '../../src/document/projectDocument.ts';
import { serviceWord } from '../../src/services/servicePoint.ts';
import { equipmentWord, usualServices } from '../../src/services/usualServices.ts';
import type { StockService } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { BayServiceFields } from './BayServiceFields.tsx';

/** So many the document takes. */
const most = 12;

type ZoneChanges = Extract<Command, { type: 'change-zone' }>['changes'];

/** A further service: what there is not yet of water, waste and power, else power again. */
const further = (services: readonly StockService[], widthMm: number): StockService => {
  const kinds = new Set(services.map(({ kind }) => kind));
  const offsetMm = Math.round(widthMm / 20) * 10;
  const starts: readonly StockService[] = [
    { kind: 'cold-water', offsetMm, heightMm: 500, connection: 'G 3/4' },
    { kind: 'waste', offsetMm, heightMm: 350, connection: 'DN 50' },
    { kind: 'hot-water', offsetMm, heightMm: 500, connection: 'G 3/4' },
  ];
  return (
    starts.find(({ kind }) => !kinds.has(kind)) ?? {
      kind: 'power',
      offsetMm,
      heightMm: 500,
      connection: '230 V 16 A',
    }
  );
};

/** What stands in a bay, and what comes up to it from the building. */
export const BayServices = (props: {
  readonly zone: Zone;
  /** Of the equipment itself. */
  readonly widthMm: number;
  readonly unit: DisplayUnit;
  readonly onChange: (changes: ZoneChanges) => void;
}) => {
  const { zone, widthMm, unit, onChange } = props;
  const services = zone.services ?? [];
  const equipment = zone.equipmentKind ?? null;
  const put = (next: readonly StockService[]) => onChange({ services: next.length > 0 ? [...next] : null });
  const usual = equipment && usualServices(equipment, widthMm);
  const isUsual = JSON.stringify(usual) === JSON.stringify(services);
  return (
    <fieldset className="bay-services">
      <legend>Comes up to it</legend>
      <label className="field">
        <span>In the bay</span>
        <select
          value={equipment ?? ''}
          onChange={(event) => {
            const kind = bayEquipmentKinds.find((one) => one === event.target.value) ?? null;
            const starts = kind && services.length === 0 ? usualServices(kind, widthMm) : null;
            onChange({ equipmentKind: kind, ...(starts ? { services: [...starts] } : {}) });
          }}
        >
          <option value="">something else</option>
          {bayEquipmentKinds.map((kind) => (
            <option key={kind} value={kind}>
              {equipmentWord[kind].toLowerCase()}
            </option>
          ))}
        </select>
      </label>
      {services.length === 0 ? (
        <p className="quiet">No services yet.</p>
      ) : (
        <p className="quiet bay-services-lead">Left as the bartender sees it; heights above the floor.</p>
      )}
      {services.length > 0 && (
        <ol className="service-lines">
          {services.map((service, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: services of a bay have no name but their place
            <li key={at}>
              <BayServiceFields
                service={service}
                ofWhat={` of service ${at + 1}, ${serviceWord[service.kind].toLowerCase()}`}
                unit={unit}
                onChange={(changed) => put(services.map((one, index) => (index === at ? changed : one)))}
                onRemove={() => put(services.filter((_, index) => index !== at))}
              />
            </li>
          ))}
        </ol>
      )}
      <p className="acts">
        {services.length < most && (
          <button
            type="button"
            className="word-button"
            onClick={() => put([...services, further(services, widthMm)])}
          >
            Add a service
          </button>
        )}
        {usual && !isUsual && (
          <button type="button" className="word-button" onClick={() => put(usual)}>
            {services.length === 0 ? 'Put the usual ones' : 'Put the usual ones in their place'}
          </button>
        )}
      </p>
      <p className="caution">
        Usual ones are common practice without a source. Check the very machine’s with its supplier.
      </p>
    </fieldset>
  );
};
