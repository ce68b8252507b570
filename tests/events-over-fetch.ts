interface Handlers {
  readonly onEvent: (name: string, data: string) => void;
  readonly onLost?: (retrying: boolean) => void;
}

/**
 * Server-sent events over fetch, for tests of the page's state: Node 20 has no EventSource.
 *
 * One connection, no retry of its own.
 */
export function eventsOverFetch(
  origin: () => string,
): (path: string, names: readonly string[], handlers: Handlers) => { readonly close: () => void } {
  return (path, names, handlers) => {
    const stop = new AbortController();
    const read = async (): Promise<void> => {
      const response = await fetch(origin() + path, { signal: stop.signal });
      let text = "";
      for await (const chunk of response.body!.pipeThrough(new TextDecoderStream())) {
        text += chunk;
        for (let end = text.indexOf("\n\n"); end >= 0; end = text.indexOf("\n\n")) {
          const name = /^event: (.*)$/m.exec(text.slice(0, end))?.[1] ?? "message";
          const data = /^data: (.*)$/m.exec(text.slice(0, end))?.[1];
          text = text.slice(end + 2);
          if (data !== undefined && names.includes(name)) handlers.onEvent(name, data);
        }
      }
    };
    read().catch(() => handlers.onLost?.(false));
    return { close: () => stop.abort() };
  };
}
