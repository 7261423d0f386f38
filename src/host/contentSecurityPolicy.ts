/**
 * What the page may load (Content Security Policy Level 3): only this host's own files. `wasm-unsafe-eval` lets pdf.js
 * compile its picture decoders; it does not allow `eval`. Neither script nor style may stand inline.
 * `blob:` and `data:` carry pictures taken out of a plan.
 */
export const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** What goes with every answer, whoever asked. */
export const securityHeaders: Readonly<Record<string, string>> = {
  'content-security-policy': contentSecurityPolicy,
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  // Not "no-referrer", which makes some requests come with "Origin: null".
  'referrer-policy': 'same-origin',
  'permissions-policy': 'camera=(), microphone=(), geolocation=(), usb=(), serial=(), payment=()',
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
};
