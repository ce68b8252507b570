export { ServerRefused, startServer, type RunningServer, type ServerOptions } from "./start.ts";
