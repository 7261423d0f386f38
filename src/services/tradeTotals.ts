import type { ServiceKind } from '../stock/stockSchema.ts';
import { serviceKinds } from '../stock/stockSchema.ts';
import { type ServicePoint, type ServiceTrade, serviceTrades, tradeOf } from './servicePoint.ts';

/** What one trade has to bring: how many points, and of what. */
export interface TradeTotal {
  readonly trade: ServiceTrade;
  readonly points: number;
  readonly kinds: readonly {
    readonly kind: ServiceKind;
    readonly points: number;
    /** Connection sizes with how many of each, sorted by size as text. */
    readonly connections: readonly { readonly connection: string; readonly count: number }[];
  }[];
}

const connectionsOf = (points: readonly ServicePoint[]): TradeTotal['kinds'][number]['connections'] => {
  const counts = new Map<string, number>();
  for (const { connection, count } of points) counts.set(connection, (counts.get(connection) ?? 0) + count);
  return [...counts]
    .map(([connection, count]) => ({ connection, count }))
    .sort((one, other) => (one.connection < other.connection ? -1 : 1));
};

const countOf = (points: readonly ServicePoint[]): number =>
  points.reduce((sum, { count }) => sum + count, 0);

/** Totals per trade, of the trades that have something to bring. A point of count 6 is six. */
export const tradeTotals = (points: readonly ServicePoint[]): readonly TradeTotal[] =>
  serviceTrades.flatMap((trade): TradeTotal[] => {
    const own = points.filter((point) => point.trade === trade);
    if (own.length === 0) return [];
    const kinds = serviceKinds
      .filter((kind) => tradeOf(kind) === trade)
      .flatMap((kind) => {
        const ofKind = own.filter((point) => point.kind === kind);
        return ofKind.length === 0
          ? []
          : [{ kind, points: countOf(ofKind), connections: connectionsOf(ofKind) }];
      });
    return [{ trade, points: countOf(own), kinds }];
  });
