import {
  apiPaths,
  changesDoneSchema,
  refusalSchema,
  studioStateSchema,
  type Change,
  type ChangesDone,
  type Conflict,
  type Refusal,
  type StudioState,
} from "#protocol";

/** What the server said to changes. `unreachable` covers no network, no answer and a server that failed inside. */
export type SaveAnswer =
  | { readonly kind: "done"; readonly done: ChangesDone }
  | { readonly kind: "conflict"; readonly conflicts: readonly Conflict[] }
  | { readonly kind: "refused"; readonly refusal: Refusal }
  | { readonly kind: "unreachable"; readonly reason: string };

export type LoadAnswer =
  | { readonly kind: "loaded"; readonly state: StudioState }
  | { readonly kind: "unreachable"; readonly reason: string };

/** A line of server-sent events. */
export interface EventLine {
  readonly close: () => void;
}

export interface EventHandlers {
  readonly onEvent: (name: string, data: string) => void;
  /** The line broke; it is being opened again if `retrying`. */
  readonly onLost?: (retrying: boolean) => void;
}

/** How the page reaches the server: one port, so that tests can use another network. */
export interface ServerDoor {
  readonly load: () => Promise<LoadAnswer>;
  readonly save: (changes: readonly Change[]) => Promise<SaveAnswer>;
  readonly request: (path: string, init?: { method?: string; body?: unknown }) => Promise<Response>;
  readonly listen: (path: string, names: readonly string[], handlers: EventHandlers) => EventLine;
}

type Fetch = (input: string, init?: RequestInit) => Promise<Response>;

/** Longest wait for an answer to a save or a load [ms]. */
const patience = 20_000;

export interface DoorOptions {
  /** In front of every path; "" on the page itself. */
  readonly origin: string;
  readonly fetch: Fetch;
  readonly listen: ServerDoor["listen"];
}

export function serverDoor({ origin, fetch, listen }: DoorOptions): ServerDoor {
  const request: ServerDoor["request"] = (path, init = {}) =>
    fetch(origin + path, {
      method: init.method ?? "GET",
      signal: AbortSignal.timeout(patience),
      ...(init.body === undefined
        ? {}
        : { headers: { "content-type": "application/json" }, body: JSON.stringify(init.body) }),
    });
  return {
    request,
    listen,
    load: async () => {
      const answer = await answered(() => request(apiPaths.studio));
      if (!answer.ok) return { kind: "unreachable", reason: answer.reason };
      const { response, body } = answer;
      if (!response.ok) return { kind: "unreachable", reason: refusalIn(body)?.error ?? failed(response) };
      const state = studioStateSchema.safeParse(body);
      if (!state.success) {
        return {
          kind: "unreachable",
          reason:
            "The studio came back in a form this page cannot read. Load the page anew: it may be older than the server.",
        };
      }
      return { kind: "loaded", state: state.data };
    },
    save: async (changes) => {
      const answer = await answered(() => request(apiPaths.changes, { method: "POST", body: { changes } }));
      if (!answer.ok) return { kind: "unreachable", reason: answer.reason };
      const { response, body } = answer;
      if (response.ok) {
        const done = changesDoneSchema.safeParse(body);
        if (done.success) return { kind: "done", done: done.data };
        return { kind: "unreachable", reason: "The answer to saving could not be read." };
      }
      const refusal = refusalIn(body);
      if (response.status === 409 && refusal?.conflicts) return { kind: "conflict", conflicts: refusal.conflicts };
      if (response.status >= 400 && response.status < 500 && refusal) return { kind: "refused", refusal };
      return { kind: "unreachable", reason: refusal?.error ?? failed(response) };
    },
  };
}

export type Answered =
  | { readonly ok: true; readonly response: Response; readonly body: unknown }
  | { readonly ok: false; readonly reason: string };

/** An answer with its body read; no answer at all is a reason in words. */
export async function answered(ask: () => Promise<Response>): Promise<Answered> {
  try {
    const response = await ask();
    const text = await response.text();
    return { ok: true, response, body: jsonIn(text) };
  } catch {
    return { ok: false, reason: "Spyhole does not answer. Is it still running on this computer?" };
  }
}

/** What a text says as JSON; null if it is none. */
export function jsonIn(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

export function refusalIn(body: unknown): Refusal | null {
  const refusal = refusalSchema.safeParse(body);
  return refusal.success ? refusal.data : null;
}

export const failed = (response: Response): string => `Spyhole answered with an error (${response.status}).`;

/** The browser's own event line; it connects again by itself. */
export function browserEvents(origin: string): ServerDoor["listen"] {
  return (path, names, { onEvent, onLost }) => {
    const source = new EventSource(origin + path);
    if (onLost) source.addEventListener("error", () => onLost(source.readyState !== EventSource.CLOSED));
    for (const name of names) {
      source.addEventListener(name, (event) => onEvent(name, String(event.data)));
    }
    return { close: () => source.close() };
  };
}
