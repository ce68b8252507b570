import { spawn, type ChildProcess } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";

/** Folder of the built server and page; another one for trying things beside a running build. */
const built = path.resolve(process.env["SPYHOLE_DIST"] ?? "dist");

/** A real server over a real database file in a folder of its own, with the demo studio in it. */
export class TestServer {
  address = "";
  readonly folder = mkdtempSync(path.join(tmpdir(), "spyhole-browser-"));
  #process: ChildProcess | null = null;
  #port = 0;

  /** Starts, or starts again at the same address with the same database. */
  async start(): Promise<void> {
    const command = path.join(built, "node", "spyhole.js");
    if (!existsSync(command)) throw new Error(`${command} is not there. Run: npm run build`);
    const store = path.join(this.folder, "studio.sqlite");
    const args = [command, "serve", "--demo", "--json", "--port", String(this.#port), "--store", store];
    const child = spawn(process.execPath, args, { stdio: ["ignore", "pipe", "pipe"] });
    this.#process = child;
    let errors = "";
    child.stderr.on("data", (chunk: Buffer) => (errors += chunk.toString()));
    const line = await new Promise<string>((resolve, reject) => {
      let text = "";
      child.stdout.on("data", (chunk: Buffer) => {
        text += chunk.toString();
        if (text.includes("\n")) resolve(text);
      });
      child.once("exit", (code) => reject(new Error(`the server ended with ${code} before it listened: ${errors}`)));
    });
    const { address, port } = JSON.parse(line) as { address: string; port: number };
    this.address = address;
    this.#port = port;
  }

  /** Ends it as a power cut would. */
  async kill(): Promise<void> {
    const child = this.#process;
    this.#process = null;
    if (!child || child.exitCode !== null) return;
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await ended;
  }

  async stop(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  /**
   * Takes pieces out of the first setting until `lowest` stand on its lowest shelf and one on each other, so that what
   * is tried by hand finds room whatever was proposed.
   */
  async thinOut(lowest: number): Promise<void> {
    const response = await fetch(`${this.address}api/studio`);
    const { document, revisions } = (await response.json()) as {
      document: StudioSeen;
      revisions: Record<string, Record<string, number>>;
    };
    const record = document.settings[0];
    const bottom = record.setting.shelves.toSorted((a, b) => a.z - b.z)[0].id;
    const standing = new Map<string, number>();
    const pieces = record.setting.pieces.filter(({ shelfId }) => {
      const before = standing.get(shelfId) ?? 0;
      standing.set(shelfId, before + 1);
      return before < (shelfId === bottom ? lowest : 1);
    });
    const basedOn = revisions["settings"][record.id];
    const thinned = { ...record, setting: { ...record.setting, pieces } };
    const changed = await fetch(`${this.address}api/changes`, {
      method: "POST",
      headers: { "content-type": "application/json", origin: new URL(this.address).origin },
      body: JSON.stringify({ changes: [{ change: "put", collection: "settings", record: thinned, basedOn }] }),
    });
    if (!changed.ok) throw new Error(`the setting was not thinned: ${await changed.text()}`);
  }

  /** The studio as the server has it. */
  async studio(): Promise<StudioSeen> {
    const response = await fetch(`${this.address}api/studio`);
    return ((await response.json()) as { document: StudioSeen }).document;
  }
}

/** As much of the studio as the tests look at. */
export interface StudioSeen {
  readonly pieces: readonly {
    readonly id: string;
    readonly shapeId: string;
    readonly partyId: string;
    readonly promised: string;
  }[];
  readonly settings: readonly {
    readonly id: string;
    readonly name: string;
    readonly kilnId: string;
    readonly setting: {
      readonly shelves: readonly { readonly id: string; readonly z: number }[];
      readonly pieces: readonly {
        readonly pieceId: string;
        readonly shelfId: string;
        readonly x: number;
        readonly y: number;
        readonly angle: number;
      }[];
    };
  }[];
}
