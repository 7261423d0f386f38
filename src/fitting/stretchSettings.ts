import type { FillItem } from './fillStock.ts';
import type { FillTables } from './fillTable.ts';
import type { NodeBudget } from './nodeBudget.ts';
import type { ScoreSequence, ScoreVector } from './scoreVector.ts';
import type { StationEvent } from './stationEvents.ts';
import type { SequencePiece } from './stretchLayout.ts';

/** What is common to all stretches of one straight. */
export interface StretchSettings {
  readonly tables: FillTables;
  /** The fill stock, widest first. */
  readonly fill: readonly FillItem[];
  readonly fillerMaxUm: number;
  readonly order: ScoreSequence;
  /** Whether least leftover follows right after made-to-measure, so that the longest fill is always best. */
  readonly longestIsBest: boolean;
  readonly events: readonly StationEvent[];
  /** Bits of stations that could also stand in another stretch of the straight. */
  readonly sharedBits: number;
  readonly budget: NodeBudget;
  /** Steps after which pairing the places of events gives way to going piece by piece. */
  readonly pairingSteps: number;
}

/** The best sequence of pieces with its score, before it is put in its final place. */
export interface FoundSequence {
  readonly sequence: readonly SequencePiece[];
  readonly score: ScoreVector;
}
