export { dayNumberOf, isoDateOf, weekdayOf } from "./day.ts";
export { found, loadOf, pieceOf, scheduleOf } from "./load-of-setting.ts";
export { couldGoEitherWay, heatClasses, heatClassOf, outsideRange, type HeatClass } from "./heat-class.ts";
export { coneRange, heatOfPieces, heatOfShelves, type ConeRange, type PieceHeat } from "./heat-of-pieces.ts";
export { silhouetteOf, type SidePoint, type SideStrap, type Silhouette } from "./silhouette.ts";
