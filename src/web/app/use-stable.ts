import { useCallback, useLayoutEffect, useRef } from "react";

/**
 * The same function through all renders, doing what the newest one would: for handlers given to memoised parts.
 * To be called from events only.
 */
export function useStable<Given extends readonly unknown[], Result>(
  handler: (...given: Given) => Result,
): (...given: Given) => Result {
  const newest = useRef(handler);
  useLayoutEffect(() => {
    newest.current = handler;
  });
  return useCallback((...given: Given) => newest.current(...given), []);
}
