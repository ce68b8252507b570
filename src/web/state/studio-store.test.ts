/// <reference types="node" />
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { FakeStudioServer } from "../../../tests/fake-studio-server.ts";
import { eventsOverFetch } from "../../../tests/events-over-fetch.ts";
import { putting, removing } from "./edits.ts";
import { forgetfulKeeper, storageKeeper, type Keeper } from "./keeper.ts";
import { serverDoor } from "./server-door.ts";
import { studioStore } from "./studio-store.ts";
import type { StudioStore, StudioView } from "./studio-view.ts";

const studio = {
  version: 1,
  id: "studio",
  name: "Test room",
  language: "en",
  units: { length: "metric", temperature: "celsius", mass: "kilogram", clock: "24" },
  paper: "a4",
  currency: "EUR",
  tariff: { pricePerKilowattHour: 0.3, bands: [] },
  roomTemperature: 293.15,
  openingTemperature: 323.15,
} as const;
const party = (id: string, name: string) => ({ version: 1, id, name });

let server: FakeStudioServer;
let origin: string;
const stores: StudioStore[] = [];

function newStore(keeper: Keeper = forgetfulKeeper()): StudioStore {
  const store = studioStore({
    door: serverDoor({ origin, fetch, listen: eventsOverFetch(() => origin) }),
    keeper,
    now: () => performance.now(),
    later: (milliseconds, action) => {
      const timer = setTimeout(action, milliseconds / 20);
      return () => clearTimeout(timer);
    },
  });
  stores.push(store);
  return store;
}

async function opened(keeper?: Keeper): Promise<StudioStore> {
  const store = newStore(keeper);
  await store.open();
  expect(store.view().phase).toBe("open");
  return store;
}

/** Waits until the view is as wished; fails with the view as it stands after 3 s. */
async function until(store: StudioStore, wish: (view: StudioView) => boolean): Promise<void> {
  const began = performance.now();
  while (!wish(store.view())) {
    if (performance.now() - began > 3000) {
      const { document, ...rest } = store.view();
      throw new Error(`never came: ${JSON.stringify({ ...rest, parties: document?.parties })}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

const saved = (view: StudioView): boolean => view.saving.kind === "saved";
const nameOf = (store: StudioStore, id: string): string | undefined =>
  store.view().document?.parties.find((each) => each.id === id)?.name;

beforeEach(async () => {
  server = new FakeStudioServer(studio, [party("ivy", "Ivy"), party("noor", "Noor")]);
  origin = await server.start();
});

afterEach(async () => {
  for (const store of stores.splice(0)) store.close();
  await server.stop();
});

describe("saving", () => {
  test("a change shows at once and is saved at once", async () => {
    const store = await opened();
    store.change("new name", [putting("parties", party("ivy", "Ivy B"))]);
    expect(nameOf(store, "ivy")).toBe("Ivy B");
    expect(store.view().saving.kind).toBe("saving");
    await until(store, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy B"));
  });

  test("changes made while a save is under way are saved after it, on its revision", async () => {
    const store = await opened();
    let open!: () => void;
    server.gate = new Promise((resolve) => {
      open = resolve;
    });
    store.change("a", [putting("parties", party("ivy", "first"))]);
    store.change("b", [putting("parties", party("ivy", "second")), putting("parties", party("tomas", "Tomas"))]);
    store.change("c", [removing("parties", "noor")]);
    open();
    await until(store, saved);
    expect(server.saves).toBe(2);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "second"));
    expect(server.recordAt("parties", "noor")).toBeNull();
    expect(store.view().conflicts).toEqual([]);
  });

  test("a server that is off loses nothing: it is said, and tried again", async () => {
    const store = await opened();
    server.mishap = "down";
    store.change("new name", [putting("parties", party("ivy", "Ivy B"))]);
    await until(store, (view) => view.saving.kind === "waiting");
    expect(store.view().unsaved).toBe(1);
    expect(nameOf(store, "ivy")).toBe("Ivy B");
    server.mishap = null;
    await until(store, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy B"));
  });

  test("an answer that was lost is no conflict with oneself", async () => {
    const store = await opened();
    server.mishap = "lost";
    store.change("new name", [putting("parties", party("ivy", "Ivy B"))]);
    await until(store, (view) => view.saving.kind === "waiting");
    await until(store, saved);
    expect(store.view().conflicts).toEqual([]);
    store.change("again", [putting("parties", party("ivy", "Ivy C"))]);
    await until(store, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy C"));
  });

  test("a refusal names its problems, keeps the work, and the next change tries again", async () => {
    const store = await opened();
    server.mishap = "refuse";
    store.change("no name", [putting("parties", party("ivy", ""))]);
    await until(store, (view) => view.saving.kind === "refused");
    const { saving } = store.view();
    expect(saving.kind === "refused" && saving.refusal.problems?.[0]?.path).toBe("changes[0].record.name");
    expect(nameOf(store, "ivy")).toBe("");
    server.mishap = null;
    store.change("a name", [putting("parties", party("ivy", "Ivy D"))]);
    await until(store, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy D"));
  });

  test("unsaved work can be given up", async () => {
    const store = await opened();
    server.mishap = "refuse";
    store.change("no name", [putting("parties", party("ivy", ""))]);
    await until(store, (view) => view.saving.kind === "refused");
    store.discard();
    await until(store, saved);
    expect(nameOf(store, "ivy")).toBe("Ivy");
  });

  test("a studio that cannot be opened says so and opens by itself later", async () => {
    server.mishap = "down";
    const store = newStore();
    await store.open();
    expect(store.view().phase).toBe("failed");
    expect(store.view().failure).toMatch(/does not answer/);
    server.mishap = null;
    await until(store, (view) => view.phase === "open");
  });
});

describe("a window that closes before it could save", () => {
  class MemoryStorage {
    readonly kept = new Map<string, string>();
    get length(): number {
      return this.kept.size;
    }
    key(index: number): string | null {
      return [...this.kept.keys()][index] ?? null;
    }
    getItem(key: string): string | null {
      return this.kept.get(key) ?? null;
    }
    setItem(key: string, value: string): void {
      this.kept.set(key, value);
    }
    removeItem(key: string): void {
      this.kept.delete(key);
    }
  }

  test("its work is there again when the page comes back, and is saved then", async () => {
    const storage = new MemoryStorage();
    const store = await opened(storageKeeper(storage, undefined, "w1"));
    server.mishap = "down";
    store.change("new name", [putting("parties", party("ivy", "Ivy B")), removing("parties", "noor")]);
    await until(store, (view) => view.saving.kind === "waiting");
    store.close();
    server.mishap = null;
    const again = await opened(storageKeeper(storage, undefined, "w1"));
    await until(again, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy B"));
    expect(server.recordAt("parties", "noor")).toBeNull();
    expect(storage.length).toBe(0);
  });

  test("if someone else changed the record meanwhile, it is asked about, not overwritten", async () => {
    const storage = new MemoryStorage();
    const store = await opened(storageKeeper(storage, undefined, "w1"));
    server.mishap = "down";
    store.change("new name", [putting("parties", party("ivy", "Ivy B"))]);
    await until(store, (view) => view.saving.kind === "waiting");
    store.close();
    server.mishap = null;
    server.changeElsewhere("parties", "ivy", party("ivy", "Ivy elsewhere"));
    const again = await opened(storageKeeper(storage, undefined, "w1"));
    await until(again, (view) => view.saving.kind === "conflict");
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy elsewhere"));
  });

  test("a second window leaves the entry of a living first one alone", async () => {
    const storage = new MemoryStorage();
    const first = storageKeeper(storage, undefined, "w1");
    first.keep(new Map([["parties/ivy", { place: "parties", id: "ivy", record: party("ivy", "x"), basedOn: 1 }]]));
    expect((await storageKeeper(storage, undefined, "w2").left()).size).toBe(0);
    expect((await first.left()).size).toBe(1);
  });
});

describe("others", () => {
  test("their changes arrive by themselves, and records nobody touched stay the same objects", async () => {
    const store = await opened();
    const noor = store.view().document?.parties.find((each) => each.id === "noor");
    await new Promise((resolve) => setTimeout(resolve, 50));
    server.changeElsewhere("parties", "ivy", party("ivy", "Ivy elsewhere"));
    await until(store, () => nameOf(store, "ivy") === "Ivy elsewhere");
    expect(store.view().document?.parties.find((each) => each.id === "noor")).toBe(noor);
    expect(store.view().saving.kind).toBe("saved");
  });

  test("a conflict shows both versions; nothing is overwritten until it is answered: mine", async () => {
    const store = await opened();
    server.changeElsewhere("parties", "ivy", party("ivy", "theirs"));
    store.change("new name", [putting("parties", party("ivy", "mine")), putting("parties", party("noor", "Noor B"))]);
    await until(store, (view) => view.saving.kind === "conflict");
    expect(store.view().conflicts).toEqual([
      { key: "parties/ivy", place: "parties", id: "ivy", mine: party("ivy", "mine"), theirs: party("ivy", "theirs") },
    ]);
    expect(server.recordAt("parties", "noor")).toEqual(party("noor", "Noor"));
    expect(nameOf(store, "ivy")).toBe("mine");
    store.answer("parties/ivy", "mine");
    await until(store, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "mine"));
    expect(server.recordAt("parties", "noor")).toEqual(party("noor", "Noor B"));
  });

  test("a conflict answered: theirs", async () => {
    const store = await opened();
    server.changeElsewhere("parties", "ivy", null);
    store.change("new name", [putting("parties", party("ivy", "mine")), putting("parties", party("noor", "Noor B"))]);
    await until(store, (view) => view.saving.kind === "conflict");
    expect(store.view().conflicts[0]?.theirs).toBeNull();
    store.answer("parties/ivy", "theirs");
    await until(store, saved);
    expect(nameOf(store, "ivy")).toBeUndefined();
    expect(server.recordAt("parties", "ivy")).toBeNull();
    expect(server.recordAt("parties", "noor")).toEqual(party("noor", "Noor B"));
  });

  test("a conflict stays one through further changes of the same record", async () => {
    const store = await opened();
    await new Promise((resolve) => setTimeout(resolve, 50));
    server.mishap = "refuse";
    store.change("new name", [putting("parties", party("ivy", "mine"))]);
    await until(store, (view) => view.saving.kind === "refused");
    server.mishap = null;
    server.changeElsewhere("parties", "ivy", party("ivy", "theirs"));
    await until(store, (view) => view.saving.kind === "conflict");
    store.change("newer name", [putting("parties", party("ivy", "mine again"))]);
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(store.view().conflicts).toHaveLength(1);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "theirs"));
  });

  test("a load that a save has overtaken is not shown", async () => {
    const store = await opened();
    await new Promise((resolve) => setTimeout(resolve, 50));
    let open!: () => void;
    server.loadGate = new Promise((resolve) => {
      open = resolve;
    });
    const loads = server.loads;
    server.changeElsewhere("parties", "noor", party("noor", "Noor elsewhere"));
    await until(store, () => server.loads > loads);
    store.change("new name", [putting("parties", party("ivy", "Ivy B"))]);
    await until(store, saved);
    const seen: (string | undefined)[] = [];
    const stop = store.subscribe(() => seen.push(nameOf(store, "ivy")));
    server.loadGate = null;
    open();
    await until(store, () => nameOf(store, "noor") === "Noor elsewhere");
    stop();
    expect(new Set(seen)).toEqual(new Set(["Ivy B"]));
  });

  test("what was missed while the line was down is fetched", async () => {
    const store = await opened();
    await new Promise((resolve) => setTimeout(resolve, 50));
    store.look(false);
    server.changeElsewhere("parties", "ivy", party("ivy", "Ivy elsewhere"));
    store.look(true);
    await until(store, () => nameOf(store, "ivy") === "Ivy elsewhere");
  });

  test("a gap in the revisions is noticed on saving even without the event", async () => {
    const store = await opened();
    store.look(false);
    server.changeElsewhere("parties", "ivy", party("ivy", "Ivy elsewhere"));
    store.change("new name", [putting("parties", party("noor", "Noor B"))]);
    await until(store, () => nameOf(store, "ivy") === "Ivy elsewhere");
  });
});

describe("undo and redo", () => {
  test("takes back step by step without end, naming each, and does them again", async () => {
    const store = await opened();
    for (let step = 1; step <= 200; step += 1) {
      store.change(`step ${step}`, [putting("parties", party("ivy", `Ivy ${step}`))]);
    }
    expect(store.view().undoLabel).toBe("step 200");
    for (let step = 200; step >= 1; step -= 1) {
      expect(store.view().undoLabel).toBe(`step ${step}`);
      store.undo();
    }
    expect(store.view().undoLabel).toBeNull();
    expect(nameOf(store, "ivy")).toBe("Ivy");
    store.redo();
    expect(nameOf(store, "ivy")).toBe("Ivy 1");
    expect(store.view().redoLabel).toBe("step 2");
    store.change("another way", [putting("parties", party("ivy", "Ivy Z"))]);
    expect(store.view().redoLabel).toBeNull();
    await until(store, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy Z"));
  });

  test("brings a removed record back, and takes a new one away", async () => {
    const store = await opened();
    store.change("removal of Noor", [removing("parties", "noor")]);
    store.change("Tomas", [putting("parties", party("tomas", "Tomas"))]);
    await until(store, saved);
    store.undo();
    store.undo();
    await until(store, saved);
    expect(server.recordAt("parties", "tomas")).toBeNull();
    expect(server.recordAt("parties", "noor")).toEqual(party("noor", "Noor"));
  });

  test("quick steps with one merge key are one step", async () => {
    const store = await opened();
    for (const x of [1, 2, 3]) store.change("move", [putting("parties", party("ivy", `${x}`))], "move ivy");
    store.change("other", [putting("parties", party("ivy", "4"))], "turn ivy");
    store.undo();
    expect(nameOf(store, "ivy")).toBe("3");
    store.undo();
    expect(nameOf(store, "ivy")).toBe("Ivy");
    expect(store.view().undoLabel).toBeNull();
  });

  test("asks before it takes back what someone else did since", async () => {
    const store = await opened();
    store.change("new name", [putting("parties", party("ivy", "Ivy B"))]);
    await until(store, saved);
    await new Promise((resolve) => setTimeout(resolve, 50));
    server.changeElsewhere("parties", "ivy", party("ivy", "Ivy elsewhere"));
    await until(store, () => nameOf(store, "ivy") === "Ivy elsewhere");
    store.undo();
    expect(store.view().undoQuestion).toEqual({ label: "new name", direction: "undo" });
    expect(nameOf(store, "ivy")).toBe("Ivy elsewhere");
    store.keepStep();
    expect(store.view().undoQuestion).toBeNull();
    store.undo(true);
    await until(store, saved);
    expect(server.recordAt("parties", "ivy")).toEqual(party("ivy", "Ivy"));
  });
});
