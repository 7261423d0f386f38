/**
 * What the page may load (Content Security Policy Level 3): its own files; blobs and data for pictures and fonts that
 * pdf.js takes out of a plan. No inline script, no eval; WebAssembly for pdf.js's image decoders.
 */
export const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self' blob:",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self' blob: data:",
  "connect-src 'self' blob:",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');
