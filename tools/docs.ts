import { writeFileSync } from "node:fs";
import { writeArchitecture } from "./architecture.ts";
import { commandsFile, commandsText } from "./commands-page.ts";
import { exampleFile, exampleText } from "./example-studio.ts";
import { rulesFile, rulesText } from "./rules-page.ts";
import { schemaFile, schemaText } from "./schema.ts";

/* Writes the documents that are made from code: `npm run docs`. Tests fail while one of them is out of date. */
writeArchitecture();
writeFileSync(schemaFile, schemaText());
writeFileSync(rulesFile, rulesText());
writeFileSync(commandsFile, commandsText());
writeFileSync(exampleFile, exampleText());
