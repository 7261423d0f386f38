import type { Sheet } from '../../document/projectDocument.ts';
import type { ScaleOfSheet } from '../../measure/scaleOfSheet.ts';

/** A ratio with at most two decimals. */
export const ratioText = (ratio: number): string => `1:${Number(ratio.toFixed(ratio >= 1000 ? 0 : 2))}`;

/** The scale that the lengths rest on, its +/-, and the evidence for it, in one sentence or two. */
export const scaleWords = (scale: ScaleOfSheet, sheet: Sheet): string => {
  const sure = (scale.relativeUncertainty * 100).toFixed(2);
  const count = scale.references.length;
  const evidence =
    scale.source === 'picked'
      ? `from ${count} known ${count === 1 ? 'dimension' : 'dimensions'} picked on it (${scale.references
          .slice(0, 3)
          .map(({ reference }) => reference.typed || `${Math.round(reference.lengthMm)} mm`)
          .join(', ')}${count > 3 ? ' …' : ''})`
      : `accepted: ${sheet.acceptedScale?.because ?? ''}`;
  return `Scale of the plan ${ratioText(scale.ratio)} ± ${sure} % (k = 2), ${evidence}.`;
};
