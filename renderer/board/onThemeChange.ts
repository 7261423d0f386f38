/** Calls back when colours may have changed: another theme on the root element, the system's scheme, fonts loaded. */
export function onThemeChange(callback: () => void): () => void {
  const observer = new MutationObserver(callback);
  observer.observe(document.documentElement, {
    attributes: true,
    attributeFilter: ['class', 'style', 'data-theme'],
  });
  const scheme = matchMedia('(prefers-color-scheme: dark)');
  scheme.addEventListener('change', callback);
  document.fonts.addEventListener('loadingdone', callback);
  return () => {
    observer.disconnect();
    scheme.removeEventListener('change', callback);
    document.fonts.removeEventListener('loadingdone', callback);
  };
}
