import { useEffect, useRef } from 'react';

/**
 * Keeps the keyboard in the job: where the act that led to a step has gone from the screen, and the focus with it, the
 * head of that step takes it. Whoever works with the pointer sees no ring for it until a key is pressed.
 */
export const useFocusOnStep = (step: string): void => {
  const isByKeys = useRef(false);
  useEffect(() => {
    const stop = new AbortController();
    const listen = { capture: true, signal: stop.signal };
    window.addEventListener('pointerdown', () => (isByKeys.current = false), listen);
    window.addEventListener(
      'keydown',
      () => {
        isByKeys.current = true;
        for (const head of document.querySelectorAll('[data-focus=quiet]'))
          head.removeAttribute('data-focus');
      },
      listen,
    );
    return () => stop.abort();
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the focus is looked after whenever another step is open
  useEffect(() => {
    if (document.activeElement && document.activeElement !== document.body) return;
    const head = document.querySelector<HTMLElement>('.rail .step-head[aria-expanded=true]');
    if (!head) return;
    if (!isByKeys.current) {
      head.dataset['focus'] = 'quiet';
      head.addEventListener('blur', () => head.removeAttribute('data-focus'), { once: true });
    }
    head.focus({ preventScroll: true });
  }, [step]);
};
