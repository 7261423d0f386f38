import { useEffect, useRef, useState } from 'react';

/** Takes a file that is dropped anywhere on the window. Answers whether one hovers over it now. */
export const useFileDrop = (onFile: (file: File) => void): boolean => {
  const [isOver, setIsOver] = useState(false);
  const latest = useRef(onFile);
  latest.current = onFile;
  useEffect(() => {
    const listening = new AbortController();
    const { signal } = listening;
    window.addEventListener(
      'dragover',
      (event) => {
        event.preventDefault();
        setIsOver(true);
      },
      { signal },
    );
    window.addEventListener('dragleave', (event) => event.relatedTarget === null && setIsOver(false), {
      signal,
    });
    window.addEventListener(
      'drop',
      (event) => {
        event.preventDefault();
        setIsOver(false);
        const file = event.dataTransfer?.files[0];
        if (file) latest.current(file);
      },
      { signal },
    );
    return () => listening.abort();
  }, []);
  return isOver;
};
