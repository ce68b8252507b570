import { createMiddleware } from "hono/factory";
import { randomBytes } from "node:crypto";
import { refuse } from "./refusals.ts";
import type { Env } from "./context.ts";

const ownNames = new Set(["127.0.0.1", "localhost", "[::1]"]);

/**
 * Lets only this computer's own pages in.
 *
 * The name asked for must be this computer's (another name that was made to point here is a trick on the browser),
 * and a request made by a page must come from our page: its origin must be the address asked for.
 */
export const guard = createMiddleware<Env>(async (call, next) => {
  const host = call.req.header("host") ?? "";
  const name = /^(\[[^\]]+\]|[^:]*)(:\d+)?$/.exec(host)?.[1]?.toLowerCase() ?? "";
  if (!ownNames.has(name)) {
    return refuse(call, 403, `Spyhole answers only at 127.0.0.1 or localhost, not at "${host.slice(0, 80)}".`);
  }
  const origin = call.req.header("origin");
  if (origin !== undefined && origin.toLowerCase() !== `http://${host.toLowerCase()}`) {
    return refuse(call, 403, "Another page asked for this. Only Spyhole's own page may.");
  }
  const site = call.req.header("sec-fetch-site");
  if (call.req.method !== "GET" && site !== undefined && site !== "same-origin" && site !== "none") {
    return refuse(call, 403, "Another page asked for this. Only Spyhole's own page may.");
  }
  await next();
});

/** Headers that keep a page to itself: only our own scripts, styles, pictures and talk; no frames. */
export const pageHeaders = createMiddleware<Env>(async (call, next) => {
  const nonce = randomBytes(16).toString("base64");
  call.set("styleNonce", nonce);
  await next();
  const { headers } = call.res;
  headers.set(
    "Content-Security-Policy",
    [
      "default-src 'none'",
      "script-src 'self'",
      `style-src 'self' 'nonce-${nonce}'`,
      "img-src 'self' data: blob:",
      "font-src 'self'",
      "connect-src 'self'",
      "worker-src 'self'",
      "manifest-src 'self'",
      "base-uri 'none'",
      "form-action 'none'",
      "frame-ancestors 'none'",
    ].join("; "),
  );
  headers.set("X-Content-Type-Options", "nosniff");
  headers.set("X-Frame-Options", "DENY");
  headers.set("Referrer-Policy", "no-referrer");
  headers.set("Cross-Origin-Opener-Policy", "same-origin");
  headers.set("Cross-Origin-Resource-Policy", "same-origin");
  headers.set("Permissions-Policy", "camera=(), microphone=(), geolocation=()");
  if (!headers.has("Cache-Control")) headers.set("Cache-Control", "no-store");
});
