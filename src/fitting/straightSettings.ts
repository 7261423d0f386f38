import type { FillItem } from './fillStock.ts';
import type { FillTables } from './fillTable.ts';
import type { NodeBudget } from './nodeBudget.ts';
import type { FitProblem } from './problemSchema.ts';
import type { ScoreSequence, ScoreVector } from './scoreVector.ts';
import type { StraightFilling } from './straightFilling.ts';
import type { StretchLayout } from './stretchLayout.ts';

/** The best filling of one straight between two given sides. */
export interface StraightLayout extends StraightFilling {
  /** At least as good as any filling; equal to `score` unless the budget ran out. */
  readonly bound: ScoreVector;
  /** Indices of the columns that are passed; absent where none is. */
  readonly passed?: readonly number[];
}

/** What the straights of a run have in common. */
export interface RunSettings {
  readonly problem: FitProblem;
  /** The one station whose displacement counts, where it is not that of all. */
  readonly onlyMoved?: string;
  readonly fill: readonly FillItem[];
  readonly tables: FillTables;
  readonly order: ScoreSequence;
  readonly longestIsBest: boolean;
  readonly budget: NodeBudget;
  readonly stretchSteps: number;
  /** Steps for trying hosted pieces wherever they could have to stand; where they do not reach, the proof stays open. */
  readonly wholeSteps: number;
  readonly pairingSteps: number;
}

/** The best layouts of one stretch, by the bits of the shared stations that they place. */
export interface StretchResult {
  readonly byShared: ReadonlyMap<number, StretchLayout>;
  readonly proven: boolean;
}
