import { markOfService } from '../../quote/bayMarks.ts';
import { serviceWord, tradeOf } from '../../services/servicePoint.ts';
import type { ServiceKind } from '../../stock/stockSchema.ts';
import type { FloorPlan, FloorRun, FloorService } from '../settingOut/floorPlan.ts';
import { placeOff } from '../settingOut/placeBands.ts';
import { uprightAngle } from '../settingOut/ringLettering.ts';
import { serviceOutline } from '../settingOut/serviceSymbol.ts';
import { plainLength } from './dxfDimensions.ts';
import type { DxfAttributeDefinition, DxfBlock, DxfEntity } from './dxfDrawing.ts';
import { serviceLayer } from './dxfLayers.ts';

const radiusMm = 25;
const tagHeightMm = 24;
/** Off the front line, beyond the symbol: where the tag stands. */
const tagOffMm = 75;

const definitions: readonly DxfAttributeDefinition[] = [
  { tag: 'TAG', prompt: 'Tag', isVisible: true },
  { tag: 'SERVICE', prompt: 'Service', isVisible: false },
  { tag: 'CONNECTION', prompt: 'Connection size', isVisible: false },
  { tag: 'COUNT', prompt: 'How many', isVisible: false },
  { tag: 'HEIGHT_MM', prompt: 'Height above finished floor in mm', isVisible: false },
  { tag: 'DATUM', prompt: 'Datum', isVisible: false },
  { tag: 'ALONG_MM', prompt: 'Along the front line from the datum in mm', isVisible: false },
  { tag: 'FROM_FRONT_MM', prompt: 'Behind the front line in mm', isVisible: false },
  { tag: 'LOAD_KW', prompt: 'Load in kW', isVisible: false },
  { tag: 'FOR', prompt: 'Mark of the piece or bay', isVisible: false },
];

const blockName = (kind: ServiceKind): string => `SERVICE-${kind.toUpperCase()}`;

const blockOf = (kind: ServiceKind): DxfBlock => {
  const arm = radiusMm * 1.6;
  return {
    name: blockName(kind),
    attributes: definitions,
    entities: [
      {
        type: 'polyline',
        layer: '0',
        points: serviceOutline({ x: 0, y: 0 }, kind, radiusMm),
        isClosed: true,
      },
      { type: 'line', layer: '0', from: { x: -arm, y: 0 }, to: { x: arm, y: 0 } },
      { type: 'line', layer: '0', from: { x: 0, y: -arm }, to: { x: 0, y: arm } },
    ],
  };
};

const insertOf = (run: FloorRun, service: FloorService): DxfEntity => {
  const straight = run.straights[service.straight];
  const values: Readonly<Record<string, string>> = {
    TAG: service.tag,
    SERVICE: serviceWord[service.kind],
    CONNECTION: service.connection,
    COUNT: String(service.count),
    HEIGHT_MM: plainLength(service.heightMm),
    DATUM: straight?.datum ?? '',
    ALONG_MM: plainLength(service.alongMm),
    FROM_FRONT_MM: plainLength(service.fromFrontMm),
    LOAD_KW: service.loadKw === null ? '' : String(service.loadKw),
    FOR: markOfService(service, run.number, run.marks, run.zones),
  };
  const layer = serviceLayer(tradeOf(service.kind));
  const at = straight
    ? placeOff(straight, service.alongMm, service.fromFrontMm + tagOffMm)
    : { x: service.at.x, y: service.at.y + tagOffMm };
  const angleDeg = straight
    ? (uprightAngle(Math.atan2(straight.along.y, straight.along.x)) * 180) / Math.PI
    : 0;
  return {
    type: 'insert',
    layer,
    block: blockName(service.kind),
    at: service.at,
    angleDeg: 0,
    attributes: definitions.map(({ tag, isVisible }) => ({
      tag,
      isVisible,
      value: values[tag] ?? '',
      at,
      heightMm: tagHeightMm,
      angleDeg,
      layer,
    })),
  };
};

/** The services of a plan as blocks, one for each kind, with what a trade has to know as attributes. */
export const dxfServices = (
  plan: FloorPlan,
): { readonly blocks: readonly DxfBlock[]; readonly entities: readonly DxfEntity[] } => {
  const services = plan.runs.flatMap((run) => run.services.map((service) => ({ run, service })));
  const kinds = [...new Set(services.map(({ service }) => service.kind))].sort();
  return {
    blocks: kinds.map(blockOf),
    entities: services.map(({ run, service }) => insertOf(run, service)),
  };
};
