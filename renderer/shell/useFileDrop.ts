import { useEffect, useRef, useState } from 'react';

/**
 * Takes a file that is dropped anywhere on the window, or several at once where the screen can do with several. Answers
 * whether one hovers over it now.
 */
export const useFileDrop = (
  onFile: (file: File) => void,
  onFiles?: (files: readonly File[]) => void,
): boolean => {
  const [isOver, setIsOver] = useState(false);
  const latest = useRef({ onFile, onFiles });
  latest.current = { onFile, onFiles };
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
        const files = [...(event.dataTransfer?.files ?? [])];
        const [file] = files;
        if (files.length > 1 && latest.current.onFiles) latest.current.onFiles(files);
        else if (file) latest.current.onFile(file);
      },
      { signal },
    );
    return () => listening.abort();
  }, []);
  return isOver;
};
