/**
 * What every answer says to the browser: nothing is loaded, run, framed or sent but what comes from here. Styles and
 * scripts stand in files of their own, so a title that holds a script is a text whatever a page does with it.
 */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

export const SAFE_HEADERS: Readonly<Record<string, string>> = {
  "Content-Security-Policy": POLICY,
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Referrer-Policy": "no-referrer",
  "X-Content-Type-Options": "nosniff",
};
