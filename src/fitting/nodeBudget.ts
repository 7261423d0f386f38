/**
 * A budget of solver steps. It counts steps, never time, so that an answer does not depend on the machine.
 * `spend` returns false once the budget is gone; from then on the caller keeps what it has and proves nothing more.
 */
export interface NodeBudget {
  readonly spend: (steps: number) => boolean;
  readonly isExhausted: () => boolean;
  readonly spent: () => number;
  /** What is left, 0 once exhausted. */
  readonly remaining: () => number;
  /** Says that something was left untried to keep within bounds: work goes on, but nothing is proven any more. */
  readonly giveUpProof: () => void;
  /** Whether everything was tried. */
  readonly isProven: () => boolean;
}

/** A budget of so many steps, the same on every machine: it counts, it never looks at a clock. */
export const nodeBudget = (steps: number): NodeBudget => {
  let used = 0;
  let proven = true;
  return {
    spend: (count) => {
      used += count;
      if (used > steps) proven = false;
      return used <= steps;
    },
    isExhausted: () => used > steps,
    spent: () => used,
    remaining: () => Math.max(0, steps - used),
    giveUpProof: () => {
      proven = false;
    },
    isProven: () => proven,
  };
};
