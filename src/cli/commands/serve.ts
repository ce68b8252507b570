import { jobBoard, threadRunner } from "#jobs";
import { startServer } from "#server";
import { openSqliteStore } from "#store";
import { demoStudio } from "#work";
import { fileURLToPath } from "node:url";
import { exitStatus, type Command } from "../command.ts";
import { storeFile } from "../studio-source.ts";

/** Beside the bundled command: dist/node and dist/web. */
const besideThis = (name: string): URL => new URL(name, import.meta.url);

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
  run: async (given, terminal) => {
    const port = given.number("port", { least: 0, most: 65_535 }) ?? 4170;
    const store = await openSqliteStore(storeFile(given, terminal));
    try {
      if (given.flag("demo") && (await store.read()) === null) await store.replace(demoStudio(terminal.today, 1));
      const jobs = jobBoard(threadRunner({ entry: besideThis("worker.js") }));
      const host = given.text("host");
      const webFolder = fileURLToPath(besideThis("../web"));
      const server = await startServer({ store, jobs, webFolder, port, ...(host === undefined ? {} : { host }) });
      terminal.out(
        given.flag("json")
          ? `${JSON.stringify({ address: server.address, port: server.port })}\n`
          : `Spyhole is at ${server.address}  (Ctrl-C stops it)\n`,
      );
      await new Promise<void>((resolve) => {
        terminal.interrupted.addEventListener("abort", () => resolve(), { once: true });
        if (terminal.interrupted.aborted) resolve();
      });
      await server.close();
      return exitStatus.done;
    } finally {
      await store.close();
    }
  },
};
