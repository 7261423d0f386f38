import { useEffect } from 'react';

/**
 * Keeps the keyboard in the job: where the act that led to a step has gone from the screen, and the focus with it, the
 * head of that step takes it.
 */
export const useFocusOnStep = (step: string): void => {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the focus is looked after whenever another step is open
  useEffect(() => {
    if (document.activeElement && document.activeElement !== document.body) return;
    const head = document.querySelector<HTMLElement>('.rail .step-head[aria-expanded=true]');
    head?.focus({ preventScroll: true });
  }, [step]);
};
