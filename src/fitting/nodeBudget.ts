/**
 * A budget of solver steps. It counts steps, never time, so that an answer does not depend on the machine.
 * `spend` returns false once the budget is gone; from then on the caller keeps what it has and proves nothing more.
 */
export interface NodeBudget {
  readonly spend: (steps: number) => boolean;
  readonly isExhausted: () => boolean;
  readonly spent: () => number;
}

export const nodeBudget = (steps: number): NodeBudget => {
  let used = 0;
  let exhausted = false;
  return {
    spend: (count) => {
      used += count;
      if (used > steps) exhausted = true;
      return !exhausted;
    },
    isExhausted: () => exhausted,
    spent: () => used,
  };
};
