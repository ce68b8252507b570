export { dayNumberOf, found, loadOf, pieceOf, scheduleOf } from "./load-of-setting.ts";
export { couldGoEitherWay, heatClasses, heatClassOf, outsideRange, type HeatClass } from "./heat-class.ts";
