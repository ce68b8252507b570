export { commands } from "./commands.ts";
export { commandHelp } from "./help.ts";
export { main } from "./main.ts";
