import type { BayEquipment } from '../document/projectDocument.ts';
import type { StockService } from '../stock/stockSchema.ts';

/** What an equipment is called. */
export const equipmentWord: Readonly<Record<BayEquipment, string>> = {
  glasswasher: 'Glasswasher',
  'bottle-cooler': 'Bottle cooler',
  'ice-machine': 'Ice machine',
};

/** A service with its place as a share of the equipment's width, from the bartender's left. */
type Usual = Omit<StockService, 'offsetMm'> & { readonly share: number };

/**
 * What commonly comes up to such equipment: common practice, no source. Every machine's data sheet says its own, so these
 * are starts to be changed, never a promise.
 */
const usual: Readonly<Record<BayEquipment, readonly Usual[]>> = {
  glasswasher: [
    { kind: 'cold-water', share: 0.2, heightMm: 500, connection: 'G 3/4' },
    { kind: 'power', share: 0.5, heightMm: 600, connection: '230 V 16 A', loadKw: 3.2 },
    { kind: 'waste', share: 0.8, heightMm: 350, connection: 'DN 50' },
  ],
  'bottle-cooler': [{ kind: 'power', share: 0.5, heightMm: 500, connection: '230 V 10 A', loadKw: 0.3 }],
  'ice-machine': [
    { kind: 'cold-water', share: 0.2, heightMm: 500, connection: 'G 3/4' },
    { kind: 'power', share: 0.5, heightMm: 600, connection: '230 V 10 A', loadKw: 0.5 },
    { kind: 'waste', share: 0.8, heightMm: 100, connection: 'DN 40' },
  ],
};

/** Usual services of an equipment so many mm wide, each on the nearest 10 mm. Some glasswashers take hot water instead of cold. */
export const usualServices = (equipment: BayEquipment, widthMm: number): readonly StockService[] =>
  usual[equipment].map(({ share, kind, ...service }) => ({
    kind,
    offsetMm: Math.round((share * Math.min(widthMm, 10_000)) / 10) * 10,
    ...service,
  }));
