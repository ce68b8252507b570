import type { Refusal } from "#protocol";
import { StoreError } from "#store";
import type { Context } from "hono";
import { HTTPException } from "hono/http-exception";
import type { ContentfulStatusCode } from "hono/utils/http-status";

/** An answer that says no: what is wrong and what to do, never where in our code. */
export function refuse(
  call: Context,
  status: ContentfulStatusCode,
  error: string,
  more: Omit<Refusal, "error"> = {},
): Response {
  return call.json({ error, ...more } satisfies Refusal, status);
}

/** What a request gets when something threw. */
export function refuseThrown(error: Error, call: Context): Response {
  if (error instanceof StoreError) return refuse(call, 507, `${error.message} ${error.remedy}`);
  if (error instanceof HTTPException) {
    const plain = error.status === 400 ? "The request is no JSON that can be read." : error.message;
    return refuse(call, error.status, plain || "The request was refused.");
  }
  console.error(error);
  return refuse(
    call,
    500,
    "Something went wrong inside Spyhole. Load the page anew to see what is saved, then try again.",
  );
}
