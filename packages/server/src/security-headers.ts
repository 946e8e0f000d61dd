import type { MiddlewareHandler } from 'hono';

/** Nothing but our own files: no script or style inside a page, no frame around it, no word of where one came from. */
const PAGE_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

/** A browser's own reader of PDF is a page with a style and a plug-in of its own. */
const PDF_POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'none'; base-uri 'none'";

export const securityHeaders: MiddlewareHandler = async (c, next) => {
  await next();
  const isPdf = c.res.headers.get('content-type') === 'application/pdf';
  const headers: Record<string, string> = {
    'Content-Security-Policy': isPdf ? PDF_POLICY : PAGE_POLICY,
    'X-Content-Type-Options': 'nosniff',
    'X-Frame-Options': 'DENY',
    // Told nothing at all, a browser sends the form of the pairing page with the origin "null", which is foreign.
    'Referrer-Policy': 'same-origin',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Permissions-Policy': 'camera=(self), geolocation=(), microphone=()',
  };
  for (const [name, value] of Object.entries(headers)) c.res.headers.set(name, value);
  if (!c.res.headers.has('Cache-Control')) c.res.headers.set('Cache-Control', 'no-store');
};
