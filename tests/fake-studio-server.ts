import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";

interface AnyRecord {
  readonly id: string;
}

interface AnyChange {
  readonly change: "put" | "remove";
  readonly collection: string;
  readonly record?: AnyRecord;
  readonly id?: string;
  readonly basedOn: number | null;
}

interface FakeJob {
  readonly request: unknown;
  readonly lines: Set<ServerResponse>;
  last: unknown;
}

const stateEvent = (state: unknown): string => `event: state\ndata: ${JSON.stringify(state)}\n\n`;

/** What goes wrong next: `lost` takes a save over and then drops the line before answering. */
export type Mishap = "down" | "lost" | "refuse" | null;

/**
 * A studio over real HTTP for tests of the page's state: its own small book-keeping, with mishaps on request.
 *
 * Written apart from src/server and src/store on purpose: the page is held to the contract, not to one server.
 */
export class FakeStudioServer {
  mishap: Mishap = null;
  /** Holds answers to saves back while set. */
  gate: Promise<void> | null = null;
  /** Holds answers to loads back while set: they tell how it was when they were asked. */
  loadGate: Promise<void> | null = null;
  /** Jobs that are asked to stop go on. */
  ignoresStops = false;
  saves = 0;
  loads = 0;
  revision = 1;
  readonly records = new Map<string, { record: AnyRecord; revision: number }>();
  readonly jobs = new Map<string, FakeJob>();
  readonly #lines = new Set<ServerResponse>();
  readonly #server = createServer((request, response) => void this.#serve(request, response));

  constructor(studio: AnyRecord, parties: readonly AnyRecord[]) {
    this.records.set("studio/studio", { record: studio, revision: 1 });
    for (const party of parties) this.records.set(`parties/${party.id}`, { record: party, revision: 1 });
  }

  async start(): Promise<string> {
    await new Promise<void>((resolve) => this.#server.listen(0, "127.0.0.1", resolve));
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`;
  }

  async stop(): Promise<void> {
    this.dropLines();
    this.#server.closeAllConnections();
    await new Promise((resolve) => this.#server.close(resolve));
  }

  dropLines(): void {
    for (const line of this.#lines) line.destroy();
    this.#lines.clear();
  }

  /** Another screen's change. */
  changeElsewhere(collection: string, id: string, record: AnyRecord | null): void {
    this.revision += 1;
    if (record === null) this.records.delete(`${collection}/${id}`);
    else this.records.set(`${collection}/${id}`, { record, revision: this.revision });
    this.#tell();
  }

  /** The next state of a job, to all that follow it. */
  tellJob(id: string, state: unknown): void {
    const job = this.jobs.get(id);
    if (!job) throw new RangeError(`no job ${id}`);
    job.last = state;
    for (const line of job.lines) line.write(stateEvent(state));
  }

  recordAt(collection: string, id: string): AnyRecord | null {
    return this.records.get(`${collection}/${id}`)?.record ?? null;
  }

  #tell(): void {
    for (const line of this.#lines) line.write(this.#changed());
  }

  #changed(): string {
    return `event: changed\ndata: ${JSON.stringify({ revision: this.revision })}\n\n`;
  }

  async #serve(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (this.mishap === "down") {
      request.destroy();
      return;
    }
    const { url = "", method } = request;
    let body = "";
    for await (const chunk of request) body += String(chunk);
    if (url === "/api/studio") await this.#studio(response);
    else if (url === "/api/changes/events") this.#listen(response);
    else if (url === "/api/changes") await this.#changes(JSON.parse(body) as { changes: AnyChange[] }, response);
    else if (url === "/api/jobs") {
      const id = `job-${this.jobs.size + 1}`;
      this.jobs.set(id, { request: JSON.parse(body), lines: new Set(), last: { state: "waiting" } });
      answer(response, 202, { id });
    } else if (/^\/api\/jobs\/[^/]+\/events$/.test(url)) this.#jobEvents(url.split("/")[3], response);
    else if (method === "DELETE") {
      if (!this.ignoresStops) this.tellJob(url.split("/")[3], { state: "cancelled" });
      answer(response, 204, null);
    } else answer(response, 404, { error: "no such place" });
  }

  async #studio(response: ServerResponse): Promise<void> {
    this.loads += 1;
    const lists: Record<string, AnyRecord[]> = Object.fromEntries(
      ["kilns", "furniture", "shapes", "parties", "classes", "schedules", "pieces", "settings"].map((name) => [
        name,
        [],
      ]),
    );
    const revisions: Record<string, Record<string, number>> = {};
    let studio: AnyRecord | null = null;
    for (const [key, { record, revision }] of this.records) {
      const [collection, id] = key.split("/") as [string, string];
      (revisions[collection] ??= {})[id] = revision;
      if (collection === "studio") studio = record;
      else lists[collection]?.push(record);
    }
    const { revision } = this;
    await this.loadGate;
    answer(response, 200, { revision, revisions, document: { format: "spyhole-studio", studio, ...lists } });
  }

  async #changes({ changes }: { changes: AnyChange[] }, response: ServerResponse): Promise<void> {
    this.saves += 1;
    await this.gate;
    if (this.mishap === "refuse") {
      const problems = [{ path: "changes[0].record.name", value: '""', expected: "a name" }];
      answer(response, 422, { error: "This cannot be saved.", problems });
      return;
    }
    const conflicts = changes.flatMap((change) => {
      const id = change.record?.id ?? change.id ?? "";
      const stands = this.records.get(`${change.collection}/${id}`);
      if ((stands?.revision ?? null) === change.basedOn) return [];
      return [
        { collection: change.collection, id, current: stands?.record ?? null, revision: stands?.revision ?? null },
      ];
    });
    if (conflicts.length > 0) {
      answer(response, 409, { error: "Changed meanwhile.", conflicts });
      return;
    }
    this.revision += 1;
    const revisions: Record<string, Record<string, number>> = {};
    for (const change of changes) {
      if (change.record) {
        this.records.set(`${change.collection}/${change.record.id}`, {
          record: change.record,
          revision: this.revision,
        });
        (revisions[change.collection] ??= {})[change.record.id] = this.revision;
      } else this.records.delete(`${change.collection}/${change.id}`);
    }
    if (this.mishap === "lost") {
      this.mishap = null;
      response.destroy();
      return;
    }
    this.#tell();
    answer(response, 200, { revision: this.revision, revisions });
  }

  #listen(response: ServerResponse): void {
    response.writeHead(200, { "content-type": "text/event-stream" });
    response.write(this.#changed());
    this.#lines.add(response);
    response.on("close", () => this.#lines.delete(response));
  }

  #jobEvents(id: string, response: ServerResponse): void {
    response.writeHead(200, { "content-type": "text/event-stream" });
    const job = this.jobs.get(id);
    if (!job) return;
    response.write(stateEvent(job.last));
    job.lines.add(response);
    this.#lines.add(response);
    response.on("close", () => this.#lines.delete(response));
  }
}

function answer(response: ServerResponse, status: number, body: unknown): void {
  response.writeHead(status, { "content-type": "application/json" });
  response.end(body === null ? "" : JSON.stringify(body));
}
