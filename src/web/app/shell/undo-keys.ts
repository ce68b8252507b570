import { useEffect } from "react";
import { usePageState } from "#web/state";

/** Ctrl+Z and Ctrl+Y (Cmd on a Mac) anywhere but in a text field, which has its own. */
export function useUndoKeys(): void {
  const { studio } = usePageState();
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isText(event.target)) return;
      const key = event.key.toLowerCase();
      const redo = key === "y" || (key === "z" && event.shiftKey);
      if (!redo && key !== "z") return;
      event.preventDefault();
      if (redo) studio.redo();
      else studio.undo();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [studio]);
}

function isText(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLTextAreaElement ||
    (target instanceof HTMLInputElement && !["checkbox", "radio", "button"].includes(target.type))
  );
}
