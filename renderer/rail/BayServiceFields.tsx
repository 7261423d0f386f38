import { serviceWord } from '../../src/services/servicePoint.ts';
import {
  type ServiceKind,
  type StockService,
  serviceKinds,
  serviceSchema,
} from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { AmountField, type Taken } from '../price/AmountField.tsx';
import { LengthField } from './LengthField.tsx';

const { connection: connectionSchema, loadKw: loadSchema, count: countSchema } = serviceSchema.unwrap().shape;

const readConnection = (text: string): Taken<string> =>
  connectionSchema.safeParse(text).success
    ? { ok: true, value: text }
    : {
        ok: false,
        message: 'One line of at most 40 letters without colons and bars, such as G 3/4 or DN 50.',
      };

/** A decimal comma is a decimal mark too: loads have no thousands. */
const readLoad = (text: string): Taken<number> => {
  const kw = Number(text.replace(/\s*kW$/i, '').replace(',', '.'));
  return loadSchema.safeParse(kw).success
    ? { ok: true, value: kw }
    : { ok: false, message: 'A load in kW above 0 and at most 200.' };
};

const readCount = (text: string): Taken<number> => {
  const count = Number(text);
  return countSchema.safeParse(count).success
    ? { ok: true, value: count }
    : { ok: false, message: 'A whole number from 1 to 48.' };
};

/** One service of a bay: what, where, how high, in which size, how many, with what load. */
export const BayServiceFields = (props: {
  readonly service: StockService;
  /** Said after every label to those who hear it. */
  readonly ofWhat: string;
  readonly unit: DisplayUnit;
  readonly onChange: (service: StockService) => void;
  readonly onRemove: () => void;
}) => {
  const { service, ofWhat, unit, onChange } = props;
  const { loadKw, count, ...bare } = service;
  const withLoad = (kw: number | null | undefined) => (kw == null ? {} : { loadKw: kw });
  const withCount = (many: number | null | undefined) => (many == null || many === 1 ? {} : { count: many });
  return (
    <>
      <div className="service-head">
        <select
          className="service-kind"
          aria-label={`Service${ofWhat}`}
          value={service.kind}
          onChange={(event) => {
            const kind = serviceKinds.find((one): one is ServiceKind => one === event.target.value);
            if (!kind) return;
            // Only power has a load.
            onChange({ ...bare, kind, ...withCount(count), ...(kind === 'power' ? withLoad(loadKw) : {}) });
          }}
        >
          {serviceKinds.map((kind) => (
            <option key={kind} value={kind}>
              {serviceWord[kind]}
            </option>
          ))}
        </select>
        <button
          type="button"
          className="word-button"
          aria-label={`Remove${ofWhat.replace(' of', '')}`}
          onClick={props.onRemove}
        >
          Remove
        </button>
      </div>
      <div className="service-fields">
        <LengthField
          label="From its left"
          ofWhat={`${ofWhat}, as the bartender sees it`}
          lengthMm={service.offsetMm}
          unit={unit}
          mostMm={10_000}
          onChange={(mm) => mm !== null && onChange({ ...service, offsetMm: micrometres(mm) })}
        />
        <LengthField
          label="Height"
          ofWhat={`${ofWhat}, above the floor`}
          lengthMm={service.heightMm}
          unit={unit}
          mostMm={3000}
          onChange={(mm) => mm !== null && onChange({ ...service, heightMm: micrometres(mm) })}
        />
        <AmountField
          label="Connection"
          ofWhat={ofWhat}
          shown={service.connection}
          emptyWords="G 3/4"
          inputMode="text"
          read={readConnection}
          onChange={(connection) => connection !== null && onChange({ ...service, connection })}
        />
        {service.kind === 'power' ? (
          <AmountField
            label="Load, kW"
            ofWhat={ofWhat}
            shown={loadKw === undefined ? '' : String(loadKw)}
            emptyWords="not stated"
            read={readLoad}
            onChange={(kw) => onChange({ ...bare, ...withCount(count), ...withLoad(kw) })}
          />
        ) : (
          <AmountField
            label="How many"
            ofWhat={ofWhat}
            shown={String(count ?? 1)}
            emptyWords="1"
            inputMode="numeric"
            read={readCount}
            onChange={(many) => onChange({ ...bare, ...withCount(many) })}
          />
        )}
      </div>
    </>
  );
};

/** The finest that a place may have. */
const micrometres = (mm: number): number => Math.round(mm * 1000) / 1000;
