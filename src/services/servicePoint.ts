import type { ZoneId } from '../document/ids.ts';
import type { BayEquipment } from '../document/projectDocument.ts';
import type { PaperPoint } from '../geometry/point.ts';
import type { ServiceKind } from '../stock/stockSchema.ts';

/** The trade that brings a service up. */
export const serviceTrades = ['plumbing', 'electrical', 'data', 'dispense', 'gas'] as const;
export type ServiceTrade = (typeof serviceTrades)[number];

/** One place where something comes up, set out from its straight's datum. Lengths in mm, heights above finished floor. */
export interface ServicePoint {
  /** What asks for it: a piece, by its index in the fit's pieces, or the equipment by others in a bay. */
  readonly asker:
    | { readonly kind: 'piece'; readonly index: number }
    | { readonly kind: 'bay'; readonly zoneId: ZoneId; readonly equipment: BayEquipment | null };
  /** The piece's stock id, empty for equipment by others; and what it is called. */
  readonly item: string;
  readonly itemName: string;
  readonly kind: ServiceKind;
  readonly trade: ServiceTrade;
  readonly connection: string;
  /** How many come up here. */
  readonly count: number;
  /** Electrical load of all of them together, kW; null where the range gives none. */
  readonly loadKw: number | null;
  /** From 0. */
  readonly straight: number;
  /** Along the traced front from the straight's start, as every position of a fit. */
  readonly alongMm: number;
  /** Expanded uncertainty (k = 2) of `alongMm`, from the drawing. */
  readonly plusMinusMm: number;
  /** From the front line towards the back. */
  readonly fromFrontMm: number;
  /** From the back line towards the front. */
  readonly fromBackMm: number;
  readonly heightMm: number;
  readonly atPaper: PaperPoint;
}

const trades: Readonly<Record<ServiceKind, ServiceTrade>> = {
  'cold-water': 'plumbing',
  'hot-water': 'plumbing',
  waste: 'plumbing',
  power: 'electrical',
  data: 'data',
  'beer-line': 'dispense',
  coolant: 'dispense',
  gas: 'gas',
};

/** The trade that a kind of service belongs to; coolant belongs with the beer lines that it cools. */
export const tradeOf = (kind: ServiceKind): ServiceTrade => trades[kind];

/** What a service is called on the sheet. */
export const serviceWord: Readonly<Record<ServiceKind, string>> = {
  'cold-water': 'Cold water',
  'hot-water': 'Hot water',
  waste: 'Waste',
  power: 'Power',
  data: 'Data',
  'beer-line': 'Beer line',
  gas: 'Gas',
  coolant: 'Coolant',
};

/** What a trade is called on the sheet. */
export const tradeWord: Readonly<Record<ServiceTrade, string>> = {
  plumbing: 'Plumbing and drainage',
  electrical: 'Electrical',
  data: 'Data',
  dispense: 'Beer dispense',
  gas: 'Gas',
};
