import type { JobBoard } from "#jobs";
import type { StudioStore } from "#store";
import type { Context } from "hono";
import type { ChangeFeed } from "./change-feed.ts";

/** What the routes work on. */
export interface Services {
  readonly store: StudioStore;
  readonly jobs: JobBoard;
  readonly feed: ChangeFeed;
}

/** Hono's variables: the nonce that lets a page's own style elements through. */
export interface Env {
  readonly Variables: { readonly styleNonce: string };
}

export type Call = Context<Env>;
