import { useState, type ReactNode } from "react";
import type { Forecast } from "#engine/firing";
import { ConeLine } from "#web/charts";
import { usePageState, useStudioView } from "#web/state";
import { Button, ProgressBar } from "#web/ui";
import { timeAndMoney, type PieceHeat } from "#work";
import {
  cautions,
  english,
  formatDuration,
  formatDurationBand,
  formatEnergy,
  formatMoment,
  formatMoneyBand,
  formatQuarters,
  formatTemperature,
  offsetWords,
  spreadWords,
  thinSpace,
} from "#words";
import { sentence } from "../words.ts";
import { placedName } from "./piece-words.ts";
import type { SettingAndProgress, SettingModel } from "./setting-model.ts";
import { SureDialog } from "./sure-dialog.tsx";

export interface ForecastStripProps {
  readonly model: SettingModel;
  readonly progress: SettingAndProgress["progress"];
  readonly pickedPieceId: string | null;
  readonly onSelect: (pieceId: string) => void;
}

/** Where each piece lands, and the firing in six numbers, each with its give or take. */
export function ForecastStrip({ model, progress, pickedPieceId, onSelect }: ForecastStripProps): ReactNode {
  const { forecast, isCurrent, inputs } = model;
  const { work, failure } = progress;
  const { forecasts } = usePageState();
  const { saving } = useStudioView();
  const [isAsking, setAsking] = useState(false);
  const ask = (grade: "preview" | "full"): void => forecasts.ask(model.record, inputs, grade);
  const isStale = forecast !== null && !isCurrent;
  return (
    <section className={`setting-strip${isStale ? " stale" : ""}`} aria-label="Forecast" aria-busy={work !== null}>
      <div className="setting-strip-progress">
        {work ? (
          <ProgressBar thin label={`Forecast under way: ${work.words}`} value={work.fraction} valueText={work.words} />
        ) : null}
      </div>
      {forecast && model.heats ? (
        <>
          <div className="setting-strip-line">
            <ConeLine
              heats={model.heats}
              firingClass={model.firingClass}
              range={model.range}
              nameOf={(pieceId) => placedName(model, pieceId)}
              pickedPieceId={pickedPieceId}
              isStale={isStale}
              onSelect={onSelect}
            />
          </div>
          <Measures model={model} forecast={forecast} heats={model.heats} />
        </>
      ) : (
        <NoForecast
          isWorking={work !== null}
          isEmpty={model.record.setting.pieces.length === 0}
          canAsk={saving.kind === "saved"}
          onAsk={ask}
        />
      )}
      <footer className="setting-strip-foot">
        <p role="status">
          {failure ? (
            <>
              <b>{failure.error}</b> {failure.remedy}
            </>
          ) : (
            stateWords(forecast, isStale, work)
          )}
        </p>
        {work ? (
          <Button size="small" onPress={() => forecasts.stop(model.record.id)}>
            Stop
          </Button>
        ) : failure ? (
          <Button size="small" onPress={() => ask("preview")}>
            Try again
          </Button>
        ) : null}
        {forecast ? (
          <Button size="small" variant="quiet" onPress={() => setAsking(true)}>
            How sure is this?
          </Button>
        ) : null}
        <p className="setting-strip-caution">{cautions.forecast.join(" ")}</p>
      </footer>
      {forecast ? (
        <SureDialog isOpen={isAsking} onClose={() => setAsking(false)} model={model} forecast={forecast} />
      ) : null}
    </section>
  );
}

function stateWords(forecast: Forecast | null, isStale: boolean, work: SettingAndProgress["progress"]["work"]): string {
  if (work) {
    const what = work.grade === "full" ? "Full forecast" : "Quick forecast";
    const share = work.fraction === null ? "" : `, ${Math.round(work.fraction * 100)}${thinSpace}%`;
    return `${what} under way${share}.${forecast ? " The numbers shown are from before." : ""}`;
  }
  if (!forecast) return "";
  if (isStale) return "The numbers are from before the last change.";
  return forecast.grade === "full" ? "Full forecast." : "Quick forecast: a full one is surer.";
}

function NoForecast(props: {
  readonly isWorking: boolean;
  readonly isEmpty: boolean;
  readonly canAsk: boolean;
  readonly onAsk: (grade: "preview" | "full") => void;
}): ReactNode {
  if (props.isWorking) return <p className="setting-strip-none muted">The first numbers come in a moment.</p>;
  if (props.isEmpty)
    return <p className="setting-strip-none muted">Nothing stands in the kiln: there is nothing to forecast.</p>;
  return (
    <div className="setting-strip-none">
      <p>No forecast yet.</p>
      <Button isDisabled={!props.canAsk} onPress={() => props.onAsk("preview")}>
        Quick forecast
      </Button>
      <Button isDisabled={!props.canAsk} onPress={() => props.onAsk("full")}>
        Full forecast
      </Button>
    </div>
  );
}

/** Half width in cones to the nearest quarter, never under one: "± ½". */
const band = (halfWidth: number): string => `±${thinSpace}${formatQuarters(Math.max(Math.round(halfWidth * 4), 1))}`;

function Measures(props: {
  readonly model: SettingModel;
  readonly forecast: Forecast;
  readonly heats: ReadonlyMap<string, PieceHeat>;
}): ReactNode {
  const { model, forecast, heats } = props;
  const { units, document, record } = model;
  const sorted = [...heats.values()].sort((a, b) => a.offset - b.offset);
  const coldest = sorted[0];
  const hottest = sorted.at(-1);
  const when = timeAndMoney(document, record, forecast);
  const { currency } = document.studio;
  const sign = currencySign(currency);
  const opening = formatTemperature(forecast.openingTemperature, units);
  return (
    <dl className="setting-measures">
      {coldest && hottest ? (
        <>
          <Measure name="Coldest piece" value={sentence(offsetWords(coldest.offset))}>
            {band(coldest.giveOrTake)}, {placedName(model, coldest.pieceId)}
          </Measure>
          <Measure name="Hottest piece" value={sentence(offsetWords(hottest.offset))}>
            {band(hottest.giveOrTake)}, {placedName(model, hottest.pieceId)}
          </Measure>
          <Measure name="Spread" value={sentence(spreadWords(forecast.spread))}>
            {band(coldest.giveOrTake)}. About one cone is normal.
          </Measure>
        </>
      ) : null}
      <Measure name="Heating" value={formatDuration(forecast.heatingEnds)}>
        {formatDurationBand(forecast.uncertainty.heating)}, ends {formatMoment(when.ends, units)}. Be here.
      </Measure>
      <Measure name="Power used" value={formatEnergy(forecast.ledger.electric)}>
        ±{thinSpace}
        {formatEnergy(forecast.uncertainty.energy)}, {formatMoneyBand(when.cost.cost, when.costGiveOrTake, sign)}
      </Measure>
      <Measure name={`Open at ${opening}`} value={when.ready === null ? "Not known" : formatMoment(when.ready, units)}>
        {when.ready === null
          ? "The run ended while it was hot."
          : `${formatDurationBand(forecast.uncertainty.ready)}. ${sentence(model.kiln.opening)} stays shut until then.`}
      </Measure>
    </dl>
  );
}

function Measure(props: { readonly name: string; readonly value: string; readonly children: ReactNode }): ReactNode {
  return (
    <div className="setting-measure">
      <dt>{props.name}</dt>
      <dd>
        <span className="result">{props.value}</span>
        <span className="small muted">{props.children}</span>
      </dd>
    </div>
  );
}

function currencySign(code: string): string {
  const part = new Intl.NumberFormat(english.code, {
    style: "currency",
    currency: code,
    currencyDisplay: "narrowSymbol",
  })
    .formatToParts(0)
    .find(({ type }) => type === "currency");
  return part?.value ?? code;
}
