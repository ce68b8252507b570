export { firingCalendar } from "./calendar.ts";
export { settingGlb } from "./gltf.ts";
export { planOf, type Plan } from "./plan.ts";
export { planCsv } from "./plan-csv.ts";
export { shelfSvg } from "./shelf-svg.ts";
