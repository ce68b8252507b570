import { serveStatic } from "@hono/node-server/serve-static";
import { readFile } from "node:fs/promises";
import path from "node:path";
import type { MiddlewareHandler } from "hono";
import type { Call, Env } from "./context.ts";

/** Files of the built page. Names with a hash in them never change; everything else is asked for anew. */
export function staticFiles(folder: string): MiddlewareHandler<Env> {
  return serveStatic<Env>({
    root: folder,
    index: "never-an-index",
    onFound: (file, call) => {
      const hashed = /[\\/]assets[\\/][^\\/]+-[\w-]{8,}\.\w+$/.test(file);
      call.header("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
    },
  });
}

/** The page itself, for every address that is no file: the page finds its way from there. */
export async function pageAt(call: Call, folder: string): Promise<Response> {
  let page: string;
  try {
    page = await readFile(path.join(folder, "index.html"), "utf8");
  } catch {
    return call.text("The page has not been built. Run: npm run build\n", 503);
  }
  // Style elements that controls add at run time carry this, so that the strict policy lets them through.
  const nonce = `<meta property="csp-nonce" content="${call.get("styleNonce")}">`;
  call.header("Cache-Control", "no-cache");
  return call.html(page.replace("<head>", `<head>${nonce}`));
}
