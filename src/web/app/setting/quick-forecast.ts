import { useEffect } from "react";
import { usePageState, useStudioView } from "#web/state";
import type { SettingAndProgress } from "./setting-model.ts";

/** Rest after a change before a quick forecast is asked for [ms]. */
const rest = 400;

/** Asks for a quick forecast whenever the setting has rested, is saved, and has none for how it stands. */
export function useQuickForecast({ model, progress }: SettingAndProgress): void {
  const { forecasts } = usePageState();
  const { saving } = useStudioView();
  const { record, inputs, isCurrent } = model;
  const { failure } = progress;
  const canAsk = saving.kind === "saved" && !isCurrent && failure === null && record.setting.pieces.length > 0;
  useEffect(() => {
    if (!canAsk) return;
    const timer = setTimeout(() => forecasts.ask(record, inputs, "preview"), rest);
    return () => clearTimeout(timer);
  }, [forecasts, record, inputs, canAsk]);
}
