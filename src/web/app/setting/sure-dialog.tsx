import type { ReactNode } from "react";
import type { Forecast } from "#engine/firing";
import { MassByHeight } from "#web/charts";
import { Button, Dialog } from "#web/ui";
import { cautions, formatQuarters, formatShare } from "#words";
import type { SettingModel } from "./setting-model.ts";

export interface SureDialogProps {
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly model: SettingModel;
  readonly forecast: Forecast;
}

/** What the give or take is made of, largest first, and what the computation itself says of its own error. */
export function SureDialog({ isOpen, onClose, model, forecast }: SureDialogProps): ReactNode {
  const { numerical, physical, reasons } = forecast.uncertainty;
  return (
    <Dialog
      isOpen={isOpen}
      onClose={onClose}
      size="wide"
      title="How sure is this forecast?"
      actions={
        <Button variant="primary" onPress={onClose}>
          Done
        </Button>
      }
    >
      <div className="setting-sure">
        <section>
          <p>
            Give or take holds 8 firings in 10.{" "}
            {model.kiln.firingsWithCones < 5
              ? `${model.kiln.name} is new to us: ${firings(model.kiln.firingsWithCones)}. Until there are 5, do not count on anything tighter than 1 cone either way.`
              : ""}
          </p>
          <h3>What it is made of, largest first</h3>
          <ol className="app-lines">
            {reasons.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ol>
          <dl className="setting-facts">
            <dt>From the kiln and the cones</dt>
            <dd>about {quarters(physical)}</dd>
            <dt>From the computation itself</dt>
            <dd>about {quarters(numerical)}</dd>
            <dt>Grade</dt>
            <dd>{forecast.grade === "full" ? "full" : "quick"}</dd>
            <dt>Surfaces, rays, steps</dt>
            <dd>
              {forecast.patches.toLocaleString("en")}, {forecast.rays.toLocaleString("en")},{" "}
              {forecast.steps.toLocaleString("en")}
            </dd>
            <dt>Energy that does not add up</dt>
            <dd>{percent(forecast.ledger.imbalance)}</dd>
            <dt>Share of full power used</dt>
            <dd>{formatShare(forecast.duty)}</dd>
          </dl>
        </section>
        <section>
          <h3>Weight by height</h3>
          <p className="small muted">Where much weight sits close together, the ware heats late.</p>
          <MassByHeight load={model.load} units={model.units} />
        </section>
      </div>
      <p>
        <b>{cautions.forecast.join(" ")}</b> {cautions.general.join(" ")}
      </p>
    </Dialog>
  );
}

const firings = (count: number): string =>
  count === 0 ? "no firing with cones yet" : count === 1 ? "1 firing with cones" : `${count} firings with cones`;

function quarters(cones: number): string {
  const count = Math.round(cones * 4);
  return count === 0 ? "under ¼ cone" : `${formatQuarters(count)} ${count > 4 ? "cones" : "cone"}`;
}

const percent = (share: number): string => `${(Math.abs(share) * 100).toFixed(2)}\u202f%`;
