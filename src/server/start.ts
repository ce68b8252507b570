import type { JobBoard } from "#jobs";
import type { StudioStore } from "#store";
import { createAdaptorServer } from "@hono/node-server";
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { buildApp } from "./app.ts";
import { changeFeed } from "./change-feed.ts";

export interface ServerOptions {
  readonly store: StudioStore;
  readonly jobs: JobBoard;
  /** Folder of the built page. */
  readonly webFolder: string;
  /** Wanted port; another free one is taken if it is not free. */
  readonly port: number;
  /** Only this computer's own address until there are accounts. */
  readonly host?: string;
}

export interface RunningServer {
  /** For a browser on this computer. */
  readonly address: string;
  readonly port: number;
  readonly close: () => Promise<void>;
}

/** Why a server was not started, in plain words. */
export class ServerRefused extends Error {
  readonly remedy: string;

  constructor(message: string, remedy: string) {
    super(message);
    this.name = "ServerRefused";
    this.remedy = remedy;
  }
}

const ownAddresses = new Set(["127.0.0.1", "::1", "localhost"]);

/** Starts the server on this computer's own address. @throws ServerRefused for any other address */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const host = options.host ?? "127.0.0.1";
  if (!ownAddresses.has(host)) {
    throw new ServerRefused(
      `Spyhole does not open itself to other computers: "${host}" was refused.`,
      "It has no accounts yet, so anyone who reached it could change the studio. Use 127.0.0.1.",
    );
  }
  const feed = changeFeed(options.store);
  const app = buildApp({ store: options.store, jobs: options.jobs, feed }, options.webFolder);
  const server = createAdaptorServer({ fetch: app.fetch }) as Server;
  const port = await listen(server, host, options.port);
  const shown = host === "::1" ? "[::1]" : host;
  return {
    address: `http://${shown}:${port}/`,
    port,
    close: async () => {
      feed.close();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
      await options.jobs.close();
    },
  };
}

async function listen(server: Server, host: string, wanted: number): Promise<number> {
  for (const port of [wanted, 0]) {
    try {
      await new Promise<void>((resolve, reject) => {
        server.once("error", reject);
        server.listen(port, host, () => {
          server.off("error", reject);
          resolve();
        });
      });
      return (server.address() as AddressInfo).port;
    } catch (error) {
      const code = error instanceof Error && "code" in error ? error.code : "";
      if (port === 0 || (code !== "EADDRINUSE" && code !== "EACCES")) throw error;
    }
  }
  throw new Error("unreachable");
}
