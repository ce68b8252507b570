import { useLayoutEffect, useRef, useState, type RefObject } from "react";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * Size of an element's content box in CSS pixels, kept up to date; `initial` until it is measured (and on paper).
 *
 * Drawings are laid out in CSS pixels at this size, so that their text never shrinks below what was asked for.
 */
export function useSize<Element extends HTMLElement>(initial: Size): [RefObject<Element | null>, Size] {
  const ref = useRef<Element>(null);
  const [size, setSize] = useState(initial);
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const observer = new ResizeObserver(([entry]) => {
      if (!entry) return;
      const { width, height } = entry.contentRect;
      // Hidden elements measure 0: keep the last size.
      if (width > 0) setSize((old) => (old.width === width && old.height === height ? old : { width, height }));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
