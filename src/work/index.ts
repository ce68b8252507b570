export { dayNumberOf, found, loadOf, pieceOf, scheduleOf } from "./load-of-setting.ts";
