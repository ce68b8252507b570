import { useSyncExternalStore } from "react";

/** Rooms that work. */
export type RoomId = "bench" | "setting";

export type Route =
  | { readonly room: "bench" }
  /** Null: the list of settings, or the empty kiln. */
  | { readonly room: "setting"; readonly settingId: string | null };

/** The address of a place in the page; kept behind the hash, so that any server that gives one file will do. */
export function addressOf(route: Route): string {
  if (route.room === "setting" && route.settingId !== null) return `#/setting/${encodeURIComponent(route.settingId)}`;
  return `#/${route.room}`;
}

/** The place an address names; null where it is none of ours (a jump within the page). */
export function routeAt(hash: string): Route | null {
  const [, room, rest] = /^#\/(bench|setting)(?:\/([^/]+))?$/.exec(hash) ?? [];
  if (room === "bench") return { room };
  if (room === "setting") return { room, settingId: rest === undefined ? null : decodeURIComponent(rest) };
  return null;
}

let current: Route = { room: "bench" };

function read(): Route {
  const route = routeAt(location.hash);
  // Same place, same object: nothing is drawn anew for a jump within the page.
  if (route && addressOf(route) !== addressOf(current)) current = route;
  return current;
}

function subscribe(listener: () => void): () => void {
  window.addEventListener("hashchange", listener);
  return () => window.removeEventListener("hashchange", listener);
}

export function useRoute(): Route {
  return useSyncExternalStore(subscribe, read);
}

export function goTo(route: Route): void {
  location.hash = addressOf(route);
}
