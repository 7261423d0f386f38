import { describe, expect, it } from 'vitest';
import { type DeliveryPiece, deliveryList, type Trip, type Vehicle } from '../../src/access/deliveryList.ts';
import { supports } from '../../src/stock/stockSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const standing = (id: string, lengthMm: number, widthMm: number, massKg = 40): DeliveryPiece => ({
  id,
  lengthMm,
  widthMm,
  heightMm: 950,
  massKg,
  support: 'standing',
});

const van: Vehicle = { lengthMm: 3400, widthMm: 1700, heightMm: 1900, payloadKg: 900 };

describe('a delivery list', () => {
  it('stands ten square pallets of 1165 mm in a 20 ft container, as the trade counts them', () => {
    // Australian pallet 1165 x 1165, ten to a 20 ft ISO box (read on freight pages); inside 5867 x 2330 (ISO 668, from memory).
    const box: Vehicle = { lengthMm: 5867, widthMm: 2330, heightMm: 2197, payloadKg: 20_000 };
    const pallets = Array.from({ length: 11 }, (_, index) => standing(`p${index}`, 1165, 1165));
    expect(deliveryList(pallets, box).trips.map((trip) => trip.count)).toEqual([10, 1]);
  });

  it('unloads in the order of installation: standing pieces, what hangs between them, what is let in', () => {
    const pieces: DeliveryPiece[] = [
      { ...standing('sink', 400, 400), support: 'drop-in' },
      standing('a', 1200, 600),
      { ...standing('beer', 600, 500), support: 'carried' },
      standing('b', 900, 600),
    ];
    const [trip] = deliveryList(pieces, van).trips;
    expect(trip!.unloadingOrder).toEqual(['a', 'b', 'beer', 'sink']);
    expect(trip!.loaded.map((piece) => piece.id)).toEqual(['sink', 'beer', 'b', 'a']);
  });

  it('starts another trip at the payload', () => {
    const pieces = Array.from({ length: 4 }, (_, index) => standing(`p${index}`, 600, 600, 400));
    expect(deliveryList(pieces, van).trips.map((trip) => trip.massKg)).toEqual([800, 800]);
  });

  it('names what the vehicle cannot take, and why', () => {
    const pieces = [
      standing('long', 3500, 600),
      standing('heavy', 600, 600, 1000),
      { ...standing('high', 600, 600), heightMm: 2000 },
    ];
    expect(deliveryList(pieces, van)).toEqual({
      trips: [],
      left: [
        { id: 'long', reason: 'too-large-for-vehicle' },
        { id: 'heavy', reason: 'too-heavy-for-vehicle' },
        { id: 'high', reason: 'too-large-for-vehicle' },
      ],
    });
  });

  it('tells count, mass and floor of a trip', () => {
    const [trip] = deliveryList([standing('a', 1200, 600), standing('b', 900, 600)], van).trips;
    expect(trip).toMatchObject({ count: 2, massKg: 80 });
    expect(trip!.floorAreaM2).toBeCloseTo(1.26, 9);
    expect(trip!.floorShare).toBeCloseTo(1.26 / (3.4 * 1.7), 9);
  });

  it('never stands a piece on another or through a wall, takes every piece once, and keeps the payload', () => {
    const random = seededRandom(3_301);
    const count = campaignSize({ sample: 100, full: 5000 });
    const failures: string[] = [];
    for (let index = 0; index < count; index += 1) {
      const pieces = Array.from(
        { length: random.integer(1, 25) },
        (_, at): DeliveryPiece => ({
          ...standing(`p${at}`, random.integer(300, 2600), random.integer(300, 900), random.integer(5, 200)),
          support: random.pick(supports),
        }),
      );
      const { trips, left } = deliveryList(pieces, van);
      const seen = [...trips.flatMap((trip) => trip.unloadingOrder), ...left.map((piece) => piece.id)].sort();
      if (
        seen.join() !==
        pieces
          .map((piece) => piece.id)
          .sort()
          .join()
      )
        failures.push(`case ${index}: pieces lost or doubled`);
      for (const trip of trips) failures.push(...faultsOf(trip, pieces, `case ${index}`));
    }
    expect(failures).toEqual([]);
  });
});

/** Checks a trip from its positions alone. */
const faultsOf = (trip: Trip, pieces: readonly DeliveryPiece[], where: string): string[] => {
  const faults: string[] = [];
  for (const [at, piece] of trip.loaded.entries()) {
    const real = pieces.find((one) => one.id === piece.id)!;
    const sides = [piece.alongMm, piece.acrossMm].sort((p, q) => p - q).join();
    if (sides !== [real.lengthMm, real.widthMm].sort((p, q) => p - q).join())
      faults.push(`${where}: ${piece.id} changed size`);
    if (
      piece.fromBulkheadMm + piece.alongMm > van.lengthMm ||
      piece.fromSideMm + piece.acrossMm > van.widthMm
    ) {
      faults.push(`${where}: ${piece.id} through a wall`);
    }
    for (const other of trip.loaded.slice(at + 1)) {
      const apart =
        piece.fromBulkheadMm + piece.alongMm <= other.fromBulkheadMm ||
        other.fromBulkheadMm + other.alongMm <= piece.fromBulkheadMm ||
        piece.fromSideMm + piece.acrossMm <= other.fromSideMm ||
        other.fromSideMm + other.acrossMm <= piece.fromSideMm;
      if (!apart) faults.push(`${where}: ${piece.id} on ${other.id}`);
      // Later on the list stands nearer the door, or in the same row.
      if (other.fromBulkheadMm < piece.fromBulkheadMm) faults.push(`${where}: ${other.id} is shut in`);
    }
  }
  if (trip.massKg > van.payloadKg) faults.push(`${where}: over the payload`);
  return faults;
};
