import { useMemo } from 'react';
import { deliveryList } from '../../src/access/deliveryList.ts';
import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { DescribedVehicle } from '../../src/document/wayInRecords.ts';
import type { ProjectAccess } from '../../src/quote/projectAccess.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { LengthField } from '../rail/LengthField.tsx';
import { FigureField } from './FigureField.tsx';

/** A mid-size van to start from (common practice, no source): to be measured. */
const usualVehicle: DescribedVehicle = { lengthMm: 3200, widthMm: 1650, heightMm: 1800, payloadKg: 1000 };

const leftWords = {
  'too-large-for-vehicle': 'too large for this vehicle',
  'too-heavy-for-vehicle': 'too heavy for this vehicle',
} as const;

const VehicleFields = (props: {
  readonly vehicle: DescribedVehicle;
  readonly unit: DisplayUnit;
  readonly onChange: (vehicle: DescribedVehicle) => void;
}) => {
  const { vehicle, unit } = props;
  const length = (label: string, key: 'lengthMm' | 'widthMm' | 'heightMm') => (
    <LengthField
      label={label}
      lengthMm={vehicle[key]}
      unit={unit}
      leastMm={1}
      mostMm={100_000}
      onChange={(mm) => mm !== null && props.onChange({ ...vehicle, [key]: mm })}
    />
  );
  return (
    <div className="way-vehicle">
      {length('Load space, length', 'lengthMm')}
      {length('Width, clear of wheel arches', 'widthMm')}
      {length('Height', 'heightMm')}
      <FigureField
        label="Payload, kg"
        value={vehicle.payloadKg}
        onChange={(kg) => kg !== null && kg > 0 && props.onChange({ ...vehicle, payloadKg: kg })}
      />
    </div>
  );
};

/** Loads of a described vehicle: what goes in each trip, and in which order it comes off. */
export const Loads = (props: {
  readonly document: ProjectDocument;
  readonly access: ProjectAccess;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
}) => {
  const { vehicle } = props.document;
  const { pieces } = props.access;
  const list = useMemo(
    () =>
      vehicle &&
      deliveryList(
        pieces.map(({ mark, piece, support }) => ({ ...piece, id: mark, support })),
        vehicle,
      ),
    [vehicle, pieces],
  );
  const describe = (changed: DescribedVehicle) =>
    props.onCommand({ type: 'describe-vehicle', vehicle: changed });
  if (!vehicle || !list)
    return (
      <div className="way-empty">
        <p>Describe the vehicle that brings the pieces, and they are shared out over its trips.</p>
        <button type="button" className="plain-button" onClick={() => describe(usualVehicle)}>
          Describe a vehicle
        </button>
      </div>
    );
  return (
    <div className="way-loads">
      <VehicleFields vehicle={vehicle} unit={props.unit} onChange={describe} />
      <table className="way-table">
        <thead>
          <tr>
            <th scope="col">Trip</th>
            <th scope="col">Pieces</th>
            <th scope="col">kg</th>
            <th scope="col">Floor</th>
            <th scope="col">Comes off in this order: standing pieces first, then what hangs between them</th>
          </tr>
        </thead>
        <tbody>
          {list.trips.map((trip, index) => (
            <tr key={trip.unloadingOrder.join()}>
              <th scope="row">{index + 1}</th>
              <td>{trip.count}</td>
              <td>{Math.ceil(trip.massKg)}</td>
              <td>
                {trip.floorAreaM2.toFixed(1)} m², {Math.round(trip.floorShare * 100)} %
              </td>
              <td className="way-order">{trip.unloadingOrder.join(', ')}</td>
            </tr>
          ))}
          {list.left.map(({ id, reason }) => (
            <tr key={id}>
              <th scope="row" className="alert">
                none
              </th>
              <td colSpan={4} className="alert">
                {id}: {leftWords[reason]}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">
        Pieces stand on the floor, upright, nothing on top of them. The number of trips is one that works, not
        a proven least; how a load is secured is for the driver and the rules of the road.
      </p>
    </div>
  );
};
