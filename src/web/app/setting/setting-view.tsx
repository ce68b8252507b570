import { memo, useState, type ReactNode } from "react";
import type { Finding } from "#engine/checks";
import type { SettingRecord } from "#records";
import { Button, Dialog } from "#web/ui";
import { ProposeDialog } from "../bench/propose-dialog.tsx";
import { media, useMedia } from "../use-media.ts";
import { useStable } from "../use-stable.ts";
import { FindingsCard, FindingsList } from "./findings-card.tsx";
import { countFindings } from "./finding-words.ts";
import { ForecastStrip } from "./forecast-strip.tsx";
import { KeysDialog } from "./keys-dialog.tsx";
import { MoveDialog } from "./move-dialog.tsx";
import { PlanCard } from "./plan-card.tsx";
import { useQuickForecast } from "./quick-forecast.ts";
import { useSettingCommands } from "./setting-commands.ts";
import { SettingHead } from "./setting-head.tsx";
import { useSettingModel } from "./setting-model.ts";
import { SideCard } from "./side-card.tsx";

type Open = "propose" | "keys" | "findings" | { readonly moveOf: string } | { readonly swapOf: string } | null;

// Each card is drawn anew only when something it shows has changed: a tick of progress draws the strip alone.
const Side = memo(SideCard);
const Plan = memo(PlanCard);
const Findings = memo(FindingsCard);
const Strip = memo(ForecastStrip);

/** One setting: from the side, from above, what to look at, and the forecast. */
export function SettingView({ record }: { readonly record: SettingRecord }): ReactNode {
  const setup = useSettingModel(record);
  const { model, progress } = setup;
  const commands = useSettingCommands(model);
  useQuickForecast(setup);
  const isPhone = useMedia(media.phone);
  const isStacked = useMedia(media.stacked);
  const isWide = useMedia(media.wide);
  const [pickedPiece, setPickedPiece] = useState<string | null>(null);
  const [chosenShelf, setChosenShelf] = useState<string | null>(null);
  const [shown, setShown] = useState<Finding | null>(null);
  const [placing, setPlacing] = useState<string | null>(null);
  const [open, setOpen] = useState<Open>(null);
  const close = (): void => setOpen(null);

  const picked = record.setting.pieces.find(({ pieceId }) => pieceId === pickedPiece) ?? null;
  const shelf = model.shelves.find(({ id }) => id === (picked?.shelfId ?? chosenShelf)) ?? model.shelves[0] ?? null;

  const pickPiece = useStable((pieceId: string | null): void => {
    setPickedPiece(pieceId);
    const placed = record.setting.pieces.find((each) => each.pieceId === pieceId);
    if (placed) setChosenShelf(placed.shelfId);
  });
  const pickShelf = useStable((shelfId: string): void => {
    setChosenShelf(shelfId);
    if (picked && picked.shelfId !== shelfId) setPickedPiece(null);
  });
  const stepShelf = useStable((step: 1 | -1): void => {
    const at = model.shelves.findIndex(({ id }) => id === shelf?.id);
    const next = model.shelves[at + step];
    if (next) pickShelf(next.id);
  });
  const show = useStable((finding: Finding | null): void => {
    setShown(finding);
    if (!finding) return;
    const pieceId = finding.place.pieceIds[0];
    if (pieceId !== undefined) pickPiece(pieceId);
    else if (finding.place.shelfIds[0] !== undefined) pickShelf(finding.place.shelfIds[0]);
  });
  const mend = useStable((finding: Finding): void => {
    if (commands.mend(finding)) setShown(null);
  });
  const putIn = useStable((pieceId: string): void => {
    setPlacing(pieceId);
    setPickedPiece(null);
    if (open === "findings") close();
  });
  const placed = useStable(() => setPlacing(null));
  const moveOf = useStable((pieceId: string) => setOpen({ moveOf: pieceId }));
  const swapOf = useStable((pieceId: string) => setOpen({ swapOf: pieceId }));
  const help = useStable(() => setOpen("keys"));
  const findingsProps = {
    model,
    shown,
    onShow: show,
    ...(isPhone ? {} : { onMend: mend, onPutIn: putIn }),
  };

  const side = (
    <Side
      key="side"
      model={model}
      pickedPieceId={pickedPiece}
      pickedShelfId={shelf?.id ?? null}
      shown={shown}
      onSelect={pickPiece}
      onSelectShelf={pickShelf}
    />
  );
  const plan = (
    <Plan
      key="plan"
      model={model}
      commands={commands}
      shelf={shelf}
      pickedPieceId={pickedPiece}
      placing={placing}
      shown={shown}
      canArrange={!isPhone}
      onSelect={pickPiece}
      onShelf={stepShelf}
      onPlaced={placed}
      onMoveTo={moveOf}
      onSwap={swapOf}
      onHelp={help}
    />
  );
  const findings = <Findings key="findings" {...findingsProps} isCompact={isStacked} />;
  const strip = (
    <Strip key="strip" model={model} progress={progress} onSelect={pickPiece} pickedPieceId={pickedPiece} />
  );

  return (
    <div className="setting">
      <SettingHead
        model={model}
        progress={progress}
        commands={commands}
        canArrange={!isPhone}
        onPropose={() => setOpen("propose")}
        findingsButton={
          isStacked || isWide ? null : (
            <Button onPress={() => setOpen("findings")}>To look at: {countFindings(model.check.findings)}</Button>
          )
        }
      />
      {isStacked ? (
        <div className="setting-columns">{[findings, side, plan, strip]}</div>
      ) : (
        <>
          <div className="setting-columns">{isWide ? [side, plan, findings] : [side, plan]}</div>
          {strip}
        </>
      )}
      <Dialog
        isOpen={open === "findings"}
        onClose={close}
        place="side"
        title={`To look at: ${countFindings(model.check.findings)}`}
      >
        <div className="setting-findings drawer">
          <FindingsList {...findingsProps} />
        </div>
      </Dialog>
      <ProposeDialog isOpen={open === "propose"} onClose={close} setting={record} pieceIds={null} />
      <KeysDialog isOpen={open === "keys"} onClose={close} />
      {typeof open === "object" && open !== null ? (
        <MoveDialog
          model={model}
          commands={commands}
          pieceId={"moveOf" in open ? open.moveOf : open.swapOf}
          kind={"moveOf" in open ? "move" : "swap"}
          onClose={close}
          onDone={pickPiece}
        />
      ) : null}
    </div>
  );
}
