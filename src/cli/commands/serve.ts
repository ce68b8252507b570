import { jobBoard } from "#jobs";
import { startServer } from "#server";
import { openSqliteStore } from "#store";
import { demoStudio } from "#work";
import { availableParallelism } from "node:os";
import { exitStatus, type Command } from "../command.ts";
import { storeFile } from "../studio-source.ts";

export const serveCommand: Command = {
  name: "serve",
  summary: "open the studio in a browser on this computer",
  usage: "spyhole serve [--port N] [--store FILE] [--demo]",
  help: [
    "Serves the page and the API on 127.0.0.1 and prints the address. Stop it with Ctrl-C.",
    "",
    "  --port N      port to use; another free one is taken if it is not free (4170)",
    "  --host NAME   only 127.0.0.1, ::1 or localhost: other computers are refused",
    "  --store FILE  the store (SPYHOLE_DATA, else data/studio.sqlite); made if missing",
    "  --demo        puts the demo studio into a store that is empty",
  ],
  examples: ["spyhole serve --demo", "spyhole serve --port 8080 --store /srv/kilns/studio.sqlite"],
  options: {
    port: { type: "string" },
    host: { type: "string" },
    store: { type: "string" },
    demo: { type: "boolean" },
  },
  takes: 0,
  run: async (given, host) => {
    const port = given.number("port", { least: 0, most: 65_535 }) ?? 4170;
    const store = await openSqliteStore(storeFile(given, host));
    try {
      if (given.flag("demo") && (await store.read()) === null) await store.replace(demoStudio(host.today, 1));
      const address = given.text("host");
      const server = await startServer({
        store,
        jobs: jobBoard(host.makeRunner(Math.min(2, availableParallelism()))),
        webFolder: host.webFolder,
        port,
        ...(address === undefined ? {} : { host: address }),
      });
      host.out(
        given.flag("json")
          ? `${JSON.stringify({ address: server.address, port: server.port })}\n`
          : `Spyhole is at ${server.address}  (Ctrl-C stops it)\n`,
      );
      await new Promise<void>((resolve) => {
        host.interrupted.addEventListener("abort", () => resolve(), { once: true });
        if (host.interrupted.aborted) resolve();
      });
      await server.close();
      return exitStatus.done;
    } finally {
      await store.close();
    }
  },
};
