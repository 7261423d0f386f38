import type { ServiceTrade } from '../../services/servicePoint.ts';
import type { DxfLayer } from './dxfDrawing.ts';

/**
 * The layers of the CAD file, by trade and in plain words: `BAR-` is what stands on the floor, `SET-` what is marked on
 * it, `SERV-` what comes up for each trade, `ARCH-` the architect's own lines. Colours are indices of the format; line weights hundredths of a millimetre.
 */
export const dxfLayers = {
  frontLine: { name: 'BAR-FRONT-LINE', colour: 5, lineType: 'Continuous', lineWeight: 50 },
  backLine: { name: 'BAR-BACK-LINE', colour: 5, lineType: 'DASHED', lineWeight: 25 },
  modules: { name: 'BAR-MODULES', colour: 7, lineType: 'Continuous', lineWeight: 35 },
  stations: { name: 'BAR-STATIONS', colour: 3, lineType: 'Continuous', lineWeight: 35 },
  corners: { name: 'BAR-CORNERS', colour: 7, lineType: 'Continuous', lineWeight: 35 },
  leftovers: { name: 'BAR-LEFTOVERS', colour: 30, lineType: 'Continuous', lineWeight: 25 },
  openings: { name: 'BAR-OPENINGS', colour: 8, lineType: 'DASHED', lineWeight: 25 },
  bays: { name: 'BAR-BAYS', colour: 8, lineType: 'DASHED', lineWeight: 25 },
  lowSections: { name: 'BAR-LOW-SECTIONS', colour: 8, lineType: 'DASHED', lineWeight: 25 },
  blocked: { name: 'BAR-BLOCKED', colour: 8, lineType: 'Continuous', lineWeight: 25 },
  marks: { name: 'BAR-MARKS', colour: 7, lineType: 'Continuous', lineWeight: 18 },
  dimensions: { name: 'SET-DIMENSIONS', colour: 8, lineType: 'Continuous', lineWeight: 18 },
  running: { name: 'SET-RUNNING', colour: 8, lineType: 'Continuous', lineWeight: 18 },
  datums: { name: 'SET-DATUMS', colour: 1, lineType: 'Continuous', lineWeight: 35 },
  plumbing: { name: 'SERV-PLUMBING', colour: 4, lineType: 'Continuous', lineWeight: 25 },
  electrical: { name: 'SERV-ELECTRICAL', colour: 6, lineType: 'Continuous', lineWeight: 25 },
  data: { name: 'SERV-DATA', colour: 6, lineType: 'Continuous', lineWeight: 25 },
  dispense: { name: 'SERV-DISPENSE', colour: 4, lineType: 'Continuous', lineWeight: 25 },
  gas: { name: 'SERV-GAS', colour: 2, lineType: 'Continuous', lineWeight: 25 },
  architect: { name: 'ARCH-PLAN', colour: 9, lineType: 'Continuous', lineWeight: 13 },
  notes: { name: 'SET-NOTES', colour: 7, lineType: 'Continuous', lineWeight: 18 },
} as const satisfies Readonly<Record<string, DxfLayer>>;

/** The name of each layer, by what stands on it. */
export const layerNames = Object.fromEntries(
  Object.entries(dxfLayers).map(([key, { name }]) => [key, name]),
) as { readonly [Key in keyof typeof dxfLayers]: (typeof dxfLayers)[Key]['name'] };

/** The layer of a trade's services. */
export const serviceLayer = (trade: ServiceTrade): string => layerNames[trade];
