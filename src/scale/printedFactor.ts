import { type StandardSheet, standardSheet } from '../sheet/sheetSize.ts';

/**
 * By how much a sheet was reduced or enlarged: its actual size over the one that it declares. ISO A sizes halve in
 * area, so their factor is an exact power of the square root of 2; the rounding of ISO 216 to whole mm stays out.
 *
 * @returns undefined where the declared name is unknown or the shapes differ by more than 7 %.
 * @example printedFactor({ widthMm: 420, heightMm: 297, name: 'A3' }, 'A1') // 0.5
 */
export const printedFactor = (
  actual: { readonly widthMm: number; readonly heightMm: number; readonly name: string },
  declaredName: string,
): number | undefined => {
  const declared = standardSheet(declaredName);
  if (!declared) return undefined;
  const isoFrom = isoNumber(declared.name);
  const isoTo = isoNumber(actual.name);
  if (isoFrom !== undefined && isoTo !== undefined) return Math.SQRT2 ** (isoFrom - isoTo);
  return factorBySides(actual, declared);
};

const isoNumber = (name: string): number | undefined => {
  const match = /^A([0-5])$/.exec(name);
  return match ? Number(match[1]) : undefined;
};

const factorBySides = (
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
  { shortMm, longMm }: StandardSheet,
): number | undefined => {
  const byShort = Math.min(widthMm, heightMm) / shortMm;
  const byLong = Math.max(widthMm, heightMm) / longMm;
  return Math.abs(byShort / byLong - 1) < 0.07 ? Math.sqrt(byShort * byLong) : undefined;
};
