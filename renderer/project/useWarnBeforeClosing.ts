import { useEffect } from 'react';

/** Lets the browser ask before the window closes while something is not on disk yet. */
export const useWarnBeforeClosing = (isUnsaved: boolean): void => {
  useEffect(() => {
    if (!isUnsaved) return;
    const warn = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener('beforeunload', warn);
    return () => window.removeEventListener('beforeunload', warn);
  }, [isUnsaved]);
};
