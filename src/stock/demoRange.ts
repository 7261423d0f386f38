import { demoModuleMassKg } from './demoMass.ts';
import { demoStations } from './demoStations.ts';
import { type CornerUnit, type StockItem, type StockRange, stockRangeSchema } from './stockSchema.ts';

const topMm = 900;
const feetMm = 160;
const demoDepthMm = 700;

/** Invented price per width, whole euros: it grows by less per millimetre as the module gets wider. */
const modulePrices: readonly (readonly [widthMm: number, price: number])[] = [
  [600, 690],
  [900, 845],
  [1200, 990],
  [1500, 1130],
  [1800, 1265],
  [2100, 1480],
  [2400, 1620],
];

/** 2100 on three frames is common practice, no source; so are the widths, 600 to 2400 in steps of 300. */
const countByWidth = [
  { upToMm: 1800, frames: 2 },
  { upToMm: 3000, frames: 3 },
];
const framesFor = (widthMm: number): number => (widthMm <= 1800 ? 2 : 3);

const modules: readonly StockItem[] = modulePrices.map(([widthMm, price]) => ({
  id: `module-${widthMm}`,
  name: `Module ${widthMm}, open with undershelf`,
  kind: 'module',
  widthMm,
  support: 'standing',
  price,
  massKg: demoModuleMassKg({ widthMm, depthMm: demoDepthMm, topMm, feetMm, frames: framesFor(widthMm) }),
  packed: { lengthMm: widthMm + 60, widthMm: 760, heightMm: 980 },
  leadTimeDays: 10,
  elevation: [{ feature: 'shelf', fromMm: 30, toMm: widthMm - 30 }],
}));

const cornerUnit = (sizeMm: number, price: number, massKg: number): CornerUnit => ({
  id: `corner-${sizeMm}`,
  name: `Corner unit ${sizeMm} x ${sizeMm}`,
  sizeMm,
  price,
  massKg,
  packed: { lengthMm: sizeMm + 60, widthMm: sizeMm + 60, heightMm: 980 },
  leadTimeDays: 15,
  frames: 2,
});

/**
 * The demo stock range. Everything in it is invented: nobody makes these pieces at these prices. Widths, stations
 * and build follow common practice, no source.
 */
export const demoRange: StockRange = stockRangeSchema.parse({
  id: 'demo-range',
  name: 'Demo range (invented)',
  version: 1,
  currency: 'EUR',
  invented: true,
  note: 'Invented for demonstration. No maker sells these pieces at these prices; sizes follow common practice.',
  items: [...modules, ...demoStations],
  cornerUnits: [cornerUnit(700, 1_180, 52.5), cornerUnit(900, 1_390, 74)],
  fillers: { maxMm: 150, price: 85, pricePerMm: 0.4, leadTimeDays: 10 },
  madeToMeasure: {
    minMm: 150,
    maxMm: 2_700,
    stepMm: 1,
    price: 620,
    pricePerMm: 0.75,
    leadTimeDays: 30,
    wideningMaxMm: 300,
    wideningPrice: 390,
    overhangMaxMm: 60,
  },
  heights: {
    topMm,
    topThicknessMm: 40,
    upstandMm: 200,
    shelfMm: 1_140,
    shelfDepthMm: 300,
    shelfThicknessMm: 30,
    feetMm,
    feetAdjustMm: 25,
    lowSectionTopMm: 850,
  },
  frame: { tubeMm: 30, legsPerFrame: 2, countByWidth },
  allowances: { jointMm: 0, scribeMm: 10, endPanelMm: 20, claddingMm: 0 },
  servicesGapMm: 150,
  hostMarginMm: 30,
  extras: {
    endPanel: { price: 240, massKg: 14 },
    joint: { price: 35 },
    spacerBar: { price: 28 },
    shelfBracket: { price: 22, thicknessMm: 6, spacingMm: 600 },
    shelfPricePerMm: 0.19,
    bayTopPricePerMm: 0.46,
    upstandPricePerMm: 0.06,
  },
} satisfies StockRange);
