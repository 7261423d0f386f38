import { areClear, mayEnd } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import { columnsIn } from './ruledPlaces.ts';
import type { RuledSettings } from './ruledStretch.ts';
import { type StretchLayout, widthOf } from './stretchLayout.ts';

/** The pieces of one place: the one that takes length first, then those in or on it. */
const placesIn = (layout: StretchLayout, jointUm: number): readonly (readonly PlacedItem[])[] => {
  let atUm = layout.fromUm;
  return layout.sequence.map((piece) => {
    const fromUm = atUm;
    atUm += widthOf(piece) + jointUm;
    const own = { item: piece.event?.item ?? piece.item!.id, fromUm, toUm: fromUm + widthOf(piece) };
    const hosted = piece.event?.hosted ?? [];
    if (hosted.length === 0) return [own];
    const starts = piece.event!.hostedAt(fromUm)!.fromUm;
    return [
      own,
      ...hosted.map(({ item, widthUm }, rank) => ({
        item,
        fromUm: starts[rank]!,
        toUm: starts[rank]! + widthUm,
      })),
    ];
  });
};

/** The pieces of a layout that keep a distance from others, in place. */
export const distantPieces = (layout: StretchLayout, settings: RuledSettings): readonly PlacedItem[] =>
  settings.rules.hasDistances
    ? placesIn(layout, settings.jointUm)
        .flat()
        .filter(({ item }) => settings.rules.reachUm(item) > 0)
    : [];

/** Whether each piece that reaches in front of a column of its stretch is shallow enough for it. */
export const passesColumns = (layout: StretchLayout, settings: RuledSettings): boolean => {
  const columns = columnsIn(layout.stretch);
  if (columns.length === 0) return true;
  return placesIn(layout, settings.jointUm).every(([own]) =>
    columns.every(
      ({ fromUm, toUm, depthUm }) =>
        own!.toUm <= fromUm || own!.fromUm >= toUm || settings.depthUmOf(own!.item) <= depthUm,
    ),
  );
};

/** Whether the layouts of one straight's stretches keep every rule between pieces and at columns. */
export const keepsRules = (
  layouts: readonly StretchLayout[],
  settings: RuledSettings,
  others: readonly PlacedItem[] = [],
): boolean => {
  const { rules } = settings;
  for (const layout of layouts) {
    if (!passesColumns(layout, settings)) return false;
    const ids = placesIn(layout, settings.jointUm).map((place) => place.map(({ item }) => item));
    const [first, last] = [ids[0]?.[0], ids.at(-1)?.[0]];
    if (first !== undefined && !mayEnd(rules, first, layout.stretch, 'start')) return false;
    if (last !== undefined && !mayEnd(rules, last, layout.stretch, 'end')) return false;
    for (const [rank, own] of ids.entries()) {
      for (const [at, id] of own.entries()) {
        const needs = rules.besideOf(id);
        if (needs === undefined) continue;
        const near = [
          ...(ids[rank - 1] ?? []),
          ...own.filter((_, index) => index !== at),
          ...(ids[rank + 1] ?? []),
        ];
        if (!near.some((other) => needs.has(other))) return false;
      }
    }
  }
  const distant = [...layouts.flatMap((layout) => distantPieces(layout, settings)), ...others];
  return distant.every((one, rank) => distant.slice(rank + 1).every((other) => areClear(rules, one, other)));
};
