import { GlobalWorkerOptions } from 'pdfjs-dist';

/**
 * Where pdf.js finds its own parts, all local. The parser and the renderer each run in a worker of their own, so that
 * neither reading nor drawing a heavy sheet holds up the page. The bundler copies the data folders of pdfjs-dist to
 * `pdfjs/` beside the page (`pdfjs/cmaps/`, `pdfjs/standard_fonts/`, `pdfjs/wasm/`, `pdfjs/iccs/`).
 */
export function pointPdfjsAtWorkers(): void {
  GlobalWorkerOptions.workerSrc = new URL('pdfjs-dist/build/pdf.worker.min.mjs', import.meta.url).href;
  GlobalWorkerOptions.rendererSrc = new URL('pdfjs-dist/build/pdf.renderer.min.mjs', import.meta.url).href;
}

/** Options of `getDocument` that point at the local data folders. */
export function pdfjsDataUrls() {
  const folder = (name: string): string => new URL(`pdfjs/${name}/`, document.baseURI).href;
  return {
    cMapUrl: folder('cmaps'),
    cMapPacked: true,
    standardFontDataUrl: folder('standard_fonts'),
    wasmUrl: folder('wasm'),
    iccUrl: folder('iccs'),
  };
}
