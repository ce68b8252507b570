import { exposureOf, viewFromPiece } from "#engine/radiation";
import type { LookAnswer, LookRequest } from "./look-messages.ts";

/** Traces what pieces see, beside the page, so that moving a piece never waits for it. */
function answerTo(request: LookRequest): LookAnswer {
  if (request.ask === "exposure") return { ask: "exposure", id: request.id, exposures: exposureOf(request.load) };
  return { ask: "view", id: request.id, view: viewFromPiece(request.load, request.pieceId) };
}

self.addEventListener("message", (event: MessageEvent<LookRequest>) => {
  // A worker has no origin to name; the rule takes it for a window.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  self.postMessage(answerTo(event.data));
});
