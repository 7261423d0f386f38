import { useEffect, useRef, useState } from 'react';
import { droppedFiles } from './droppedFiles.ts';
import { wordsFor } from './wordsFor.ts';

/**
 * Takes a file that is dropped anywhere on the window, or several at once where the screen can do with several. Answers
 * whether one hovers over it now.
 */
export const useFileDrop = (
  onFile: (file: File) => void,
  onFiles?: (files: readonly File[]) => void,
  onTrouble?: (words: string) => void,
): boolean => {
  const [isOver, setIsOver] = useState(false);
  const latest = useRef({ onFile, onFiles, onTrouble });
  latest.current = { onFile, onFiles, onTrouble };
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
        if (!event.dataTransfer) return;
        void droppedFiles(event.dataTransfer).then(
          (files) => {
            const [file] = files;
            if (files.length > 1 && latest.current.onFiles) latest.current.onFiles(files);
            else if (file) latest.current.onFile(file);
          },
          (thrown: unknown) =>
            latest.current.onTrouble?.(`What was dropped can’t be read: ${wordsFor(thrown)}`),
        );
      },
      { signal },
    );
    return () => listening.abort();
  }, []);
  return isOver;
};
