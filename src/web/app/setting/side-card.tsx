import { useState, type ReactNode } from "react";
import type { Finding } from "#engine/checks";
import { Cutaway, cutStep, fromTheFront } from "#web/cutaway";
import { Card, HeatKey, IconButton, useSize } from "#web/ui";
import { media, useMedia } from "../use-media.ts";
import type { SettingModel } from "./setting-model.ts";

export interface SideCardProps {
  readonly model: SettingModel;
  readonly pickedPieceId: string | null;
  readonly pickedShelfId: string | null;
  readonly shown: Finding | null;
  readonly onSelect: (pieceId: string | null) => void;
  readonly onSelectShelf: (shelfId: string) => void;
}

/** The kiln cut open, to scale, coloured by the forecast. */
export function SideCard(props: SideCardProps): ReactNode {
  const { model } = props;
  const [turns, setTurns] = useState(0);
  const fills = useMedia(media.filled);
  const [area, { height }] = useSize<HTMLDivElement>({ width: 600, height: 480 });
  return (
    <Card
      title="From the side"
      tools={<IconButton icon="turn" label="Turn the cut by 30 degrees" onPress={() => setTurns((turns + 1) % 12)} />}
      aside={model.heats ? <HeatKey /> : null}
      className="setting-side"
    >
      <div className="setting-side-drawing" ref={area}>
        <Cutaway
          load={model.load}
          numbers={model.plainNumbers}
          heats={model.heats}
          range={model.range}
          units={model.units}
          viewFrom={fromTheFront + turns * cutStep}
          pickedPieceId={props.pickedPieceId}
          pickedShelfId={props.pickedShelfId}
          findings={model.check.findings}
          shownFinding={props.shown}
          onSelect={props.onSelect}
          onSelectShelf={props.onSelectShelf}
          maxHeight={fills ? Math.max(height, 300) : 620}
        />
      </div>
    </Card>
  );
}
