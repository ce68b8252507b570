import { writeSync } from "node:fs";
import { openSqliteStore } from "./sqlite.ts";

/* Writes one party after another and says each name once it is saved, until it is killed. Started by power-loss.test.ts. */

const store = await openSqliteStore(process.argv[2]);
const began = (await store.revision()) + 1;
for (let i = began; ; i += 1) {
  const id = `party-${i}`;
  const outcome = await store.apply([
    { change: "put", collection: "parties", record: { version: 1, id, name: id }, basedOn: null },
  ]);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.failure));
  writeSync(1, `${id}\n`);
}
