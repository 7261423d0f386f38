import { type RefObject, useLayoutEffect, useState } from 'react';

export interface SizePx {
  readonly widthPx: number;
  readonly heightPx: number;
}

const unmeasured: SizePx = { widthPx: 1200, heightPx: 216 };

/** The size of an element's inside, kept up to date. */
export const useSize = (element: RefObject<HTMLElement | null>): SizePx => {
  const [size, setSize] = useState<SizePx>(unmeasured);
  useLayoutEffect(() => {
    const { current } = element;
    if (!current) return;
    const measure = () => {
      const { clientWidth, clientHeight } = current;
      if (clientWidth > 0 && clientHeight > 0)
        setSize((before) =>
          before.widthPx === clientWidth && before.heightPx === clientHeight
            ? before
            : { widthPx: clientWidth, heightPx: clientHeight },
        );
    };
    measure();
    if (typeof ResizeObserver === 'undefined') return;
    const observer = new ResizeObserver(measure);
    observer.observe(current);
    return () => observer.disconnect();
  }, [element]);
  return size;
};
