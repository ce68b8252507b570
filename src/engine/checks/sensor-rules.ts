import { conesToTip, pieceToTip, postToTip, shelfToTip } from "./clearances.ts";
import { draft, type Draft } from "./draft.ts";
import type { Place } from "./finding.ts";
import { length, message } from "./message-keys.ts";
import { nearestPlace, type SearchBudget } from "./piece-moves.ts";
import { pointToPlate } from "./plate.ts";
import { postChoices } from "./post-choices.ts";
import { hair, type Scene } from "./scene.ts";

/** Nothing within the clear half-ball about each sensor's tip: no shelf, post, ware or cone pack. Distances in space. */
export function sensorDrafts(scene: Scene, budget: SearchBudget): readonly Draft[] {
  const limit = scene.load.kiln.rules.sensorClear;
  const tooNear = (distance: number): boolean => distance < limit - hair;
  const found: Draft[] = [];
  for (const tip of scene.tips) {
    const point: Place["point"] = [tip.x, tip.y, tip.z];
    const numbers = (distance: number): { measured: number; limit: number } => ({
      measured: Math.max(distance, 0),
      limit,
    });
    const values = (distance: number) => ({ measured: length(Math.max(distance, 0)), limit: length(limit) });
    for (const shelf of scene.shelves) {
      const distance = shelfToTip(shelf, tip);
      if (tooNear(distance)) {
        found.push(
          draft("sensor-clear", {
            ...numbers(distance),
            point,
            shelfIds: [shelf.placed.id],
            message: message("found.sensor-shelf", { ...values(distance), shelf: shelf.number }),
            advice: message("do.shelf-from-sensor", { shelf: shelf.number }),
            candidates: () =>
              postChoices(scene, shelf, (_, underside) => {
                const plate = { ...shelf.plate, bottom: underside, top: underside + shelf.type.thickness };
                return !tooNear(pointToPlate(plate, tip.x, tip.y, tip.z));
              }),
          }),
        );
      }
      const post = Math.min(Infinity, ...shelf.posts.map((each) => postToTip(each, tip)));
      if (tooNear(post)) {
        found.push(
          draft("sensor-clear", {
            ...numbers(post),
            point,
            shelfIds: [shelf.placed.id],
            message: message("found.sensor-post", { ...values(post), shelf: shelf.number }),
            advice: message("do.post-from-sensor"),
          }),
        );
      }
    }
    for (const piece of scene.pieces) {
      const distance = pieceToTip(piece, tip);
      if (!tooNear(distance)) continue;
      found.push(
        draft("sensor-clear", {
          ...numbers(distance),
          point,
          shelfIds: [piece.shelf.placed.id],
          pieceIds: [piece.piece.id],
          message: message("found.sensor-piece", { ...values(distance), piece: piece.name }),
          advice: message("do.move-from-sensor", { piece: piece.name }),
          candidates: () => nearestPlace(scene, piece, budget),
        }),
      );
    }
    for (const cones of scene.cones) {
      const distance = conesToTip(cones, tip);
      if (!tooNear(distance)) continue;
      found.push(
        draft("sensor-clear", {
          ...numbers(distance),
          point,
          shelfIds: [cones.shelf.placed.id],
          message: message("found.sensor-cones", { ...values(distance), shelf: cones.shelf.number }),
          advice: message("do.cones-elsewhere"),
        }),
      );
    }
  }
  return found;
}
