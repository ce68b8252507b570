import { useCallback, useSyncExternalStore } from "react";

/** Whether a media query holds now. */
export function useMedia(query: string): boolean {
  const subscribe = useCallback(
    (listener: () => void) => {
      const list = matchMedia(query);
      list.addEventListener("change", listener);
      return () => list.removeEventListener("change", listener);
    },
    [query],
  );
  return useSyncExternalStore(subscribe, () => matchMedia(query).matches);
}

/** Phone, tablet, desk, and a desk wide enough for three columns. */
export const media = {
  phone: "(max-width: 599px)",
  stacked: "(max-width: 1199px)",
  wide: "(min-width: 1400px)",
  /** Each screen fills the window, lists scroll inside: as in the style sheets. */
  filled: "(min-width: 1200px) and (min-height: 760px)",
} as const;
