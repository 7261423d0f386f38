import { type ReactNode, useEffect, useRef } from 'react';

/** One step of the job: its word, its answer so far, and what can be done in it while it is open. */
export const Step = (props: {
  readonly word: string;
  /** What the step has come to, e.g. `1:50 ± 0.2 %`; or what is missing. */
  readonly answer: ReactNode;
  readonly needsWork?: boolean;
  readonly isOpen: boolean;
  readonly onOpen: () => void;
  readonly children: ReactNode;
}) => {
  const { isOpen } = props;
  const step = useRef<HTMLElement>(null);
  const wasOpen = useRef(isOpen);
  useEffect(() => {
    // The step that closed above may have been long: the head of the one that opened stays in sight.
    if (isOpen && !wasOpen.current) step.current?.querySelector('h2')?.scrollIntoView({ block: 'nearest' });
    wasOpen.current = isOpen;
  }, [isOpen]);
  return (
    <section className={isOpen ? 'step is-open' : 'step'} ref={step}>
      <h2>
        <button type="button" className="step-head" aria-expanded={isOpen} onClick={props.onOpen}>
          <span className="step-word">{props.word}</span>
          <span className={props.needsWork ? 'step-answer needs-work' : 'step-answer'}>{props.answer}</span>
        </button>
      </h2>
      {isOpen && <div className="step-body">{props.children}</div>}
    </section>
  );
};
