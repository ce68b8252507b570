export type { Finding, Level, Message, Place, Quantity, Remedy } from "./finding.ts";
