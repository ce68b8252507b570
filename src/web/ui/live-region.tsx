import { createContext, useCallback, useContext, useMemo, useState, type ReactNode } from "react";

/**
 * Says a text to screen readers. Polite ones wait for a pause; urgent ones (a stop) break in.
 * The same text said twice is read twice.
 */
export type Announce = (text: string, urgency?: "polite" | "urgent") => void;

const AnnounceContext = createContext<Announce>(() => {});

/** Text that is read out when it changes, unseen. */
export function LiveRegion({ text, urgent = false }: { readonly text: string; readonly urgent?: boolean }): ReactNode {
  return (
    <div
      className="unseen"
      role={urgent ? "alert" : "status"}
      aria-live={urgent ? "assertive" : "polite"}
      aria-atomic="true"
    >
      {text}
    </div>
  );
}

/** Put once about the whole app; anything inside speaks through `useAnnounce`. */
export function Announcer({ children }: { readonly children: ReactNode }): ReactNode {
  const [polite, setPolite] = useState("");
  const [urgent, setUrgent] = useState("");
  const announce = useCallback<Announce>((text, urgency = "polite") => {
    // A no-break space at the end makes a repeated text a new one.
    const set = urgency === "urgent" ? setUrgent : setPolite;
    set((before) => (before === text ? `${text}\u00a0` : text));
  }, []);
  const value = useMemo(() => announce, [announce]);
  return (
    <AnnounceContext value={value}>
      {children}
      <LiveRegion text={polite} />
      <LiveRegion text={urgent} urgent />
    </AnnounceContext>
  );
}

export function useAnnounce(): Announce {
  return useContext(AnnounceContext);
}
