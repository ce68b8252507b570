export type { Finding, Level, Message, MessageValue, PieceName, Place, Quantity, Remedy } from "./finding.ts";
