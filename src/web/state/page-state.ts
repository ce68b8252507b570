import { createContext, useContext, useMemo, useSyncExternalStore } from "react";
import type { SettingRecord, StudioDocument } from "#records";
import { forecastKey } from "#work";
import { forecastBook, type ForecastBook, type ForecastView } from "./forecast-book.ts";
import { storageKeeper } from "./keeper.ts";
import { browserEvents, serverDoor, type ServerDoor } from "./server-door.ts";
import { studioStore } from "./studio-store.ts";
import type { StudioStore, StudioView } from "./studio-view.ts";

/** All state of one window. */
export interface PageState {
  readonly door: ServerDoor;
  readonly studio: StudioStore;
  readonly forecasts: ForecastBook;
}

/** The state of this browser window, with its own network, clock and storage. Made once, in main.tsx. */
export function browserPageState(): PageState {
  const door = serverDoor({ origin: "", fetch: (input, init) => fetch(input, init), listen: browserEvents("") });
  const studio = studioStore({
    door,
    keeper: storageKeeper(localStorage, navigator.locks, windowId()),
    now: () => performance.now(),
    later: (milliseconds, action) => {
      const timer = setTimeout(action, milliseconds);
      return () => clearTimeout(timer);
    },
  });
  // A browser opens few lines to one server: windows nobody looks at give theirs up.
  document.addEventListener("visibilitychange", () => studio.look(document.visibilityState === "visible"));
  window.addEventListener("online", () => studio.saveNow());
  return { door, studio, forecasts: forecastBook(door) };
}

/** Another in every window. Where no locks tell which windows live, the same through reloads of one window. */
function windowId(): string {
  const fresh = crypto.randomUUID().slice(0, 8);
  if ("locks" in navigator) return fresh;
  const name = "spyhole-window";
  const id = sessionStorage.getItem(name) ?? fresh;
  sessionStorage.setItem(name, id);
  return id;
}

export const PageStateContext = createContext<PageState | null>(null);

/** @throws Error outside of PageStateContext: a mistake in the page */
export function usePageState(): PageState {
  const page = useContext(PageStateContext);
  if (!page) throw new Error("usePageState needs a PageStateContext around it");
  return page;
}

export function useStudioView(): StudioView {
  const { studio } = usePageState();
  return useSyncExternalStore(studio.subscribe, studio.view);
}

/** The studio as it stands on this screen. @throws Error before it is open: screens are shown after that */
export function useStudio(): StudioDocument {
  const { document } = useStudioView();
  if (!document) throw new Error("useStudio needs an open studio");
  return document;
}

/** What is known of a setting's firing, and a text of all it depends on. */
export function useForecast(setting: SettingRecord): ForecastView & { readonly inputs: string } {
  const { forecasts } = usePageState();
  const document = useStudio();
  // All a forecast depends on, as text: two equal ones have the same forecast. Grades share a page of the book.
  const inputs = useMemo(() => forecastKey(document, setting, "full", (text) => text), [document, setting]);
  const view = useSyncExternalStore(forecasts.subscribe, () => forecasts.view(setting.id, inputs));
  return { ...view, inputs };
}
