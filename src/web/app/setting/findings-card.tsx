import { useEffect, useRef, type ReactNode } from "react";
import type { Finding } from "#engine/checks";
import { Button, Card, FindingCard, FindingIcon, useAnnounce } from "#web/ui";
import { commonPractice, type CheckResult } from "#engine/checks";
import { countFindings, findingKey, findingText, keyedFindings, messageText, remedyWords } from "./finding-words.ts";
import { cautions } from "#words";
import type { SettingModel } from "./setting-model.ts";
import { WaitingPieces } from "./waiting-pieces.tsx";

export interface FindingsProps {
  readonly model: SettingModel;
  readonly shown: Finding | null;
  readonly onShow: (finding: Finding | null) => void;
  /** Left out where nothing can be arranged (phone). */
  readonly onMend?: (finding: Finding) => void;
  readonly onPutIn?: (pieceId: string) => void;
  /** Tips folded away: where this card stands before the drawings. */
  readonly isCompact?: boolean;
}

/** Stops first, then checks, tips, what waits, the rules that are kept and what only eyes can tell. */
export function FindingsCard(props: FindingsProps): ReactNode {
  const { findings } = props.model.check;
  return (
    <Card title="To look at" aside={countFindings(findings)} flush className="setting-findings">
      <FindingsList {...props} />
    </Card>
  );
}

export function FindingsList(props: FindingsProps): ReactNode {
  const { model, onPutIn, isCompact = false } = props;
  const { findings } = model.check;
  const keyed = keyedFindings(findings);
  const tips = isCompact ? keyed.filter(({ finding }) => finding.level === "tip") : [];
  const open = isCompact ? keyed.filter(({ finding }) => finding.level !== "tip") : keyed;
  useSaidStops(model, findings);
  return (
    <>
      {open.length === 0 ? (
        <div className="setting-clear">
          <FindingIcon level="kept" />
          <p>{tips.length === 0 ? "Nothing stands against this setting." : "No stop and no check."}</p>
        </div>
      ) : null}
      {open.map(({ key, finding }) => (
        <OneFinding key={key} finding={finding} {...props} />
      ))}
      {tips.length === 0 ? null : (
        <details className="setting-fold">
          <summary>
            <FindingIcon level="tip" />
            {tips.length === 1 ? "1 tip" : `${tips.length} tips`}
          </summary>
          {tips.map(({ key, finding }) => (
            <OneFinding key={key} finding={finding} {...props} />
          ))}
        </details>
      )}
      <WaitingPieces model={model} isFolded={isCompact} {...(onPutIn ? { onPutIn } : {})} />
      <KeptRules model={model} result={model.check} />
    </>
  );
}

function OneFinding({
  finding,
  model,
  shown,
  onShow,
  onMend,
}: FindingsProps & { readonly finding: Finding }): ReactNode {
  const text = findingText(model, finding);
  const isShown = shown !== null && findingKey(shown) === findingKey(finding);
  const { place } = finding;
  return (
    <FindingCard
      level={finding.level}
      title={text.title}
      why={text.why}
      remedy={text.advice}
      isPicked={isShown}
      actions={
        <>
          {finding.remedy && onMend ? (
            <Button
              size="small"
              variant={finding.level === "stop" ? "primary" : "plain"}
              onPress={() => onMend(finding)}
            >
              {remedyWords(finding)}
            </Button>
          ) : null}
          {place.shelfIds.length + place.pieceIds.length > 0 || place.point ? (
            <Button
              size="small"
              label={`${isShown ? "Hide" : "Show"}: ${text.title}`}
              onPress={() => onShow(isShown ? null : finding)}
            >
              {isShown ? "Hide" : "Show"}
            </Button>
          ) : null}
        </>
      }
    />
  );
}

/** A stop that comes is said once, at once; going is said politely by what mended it. */
function useSaidStops(model: SettingModel, findings: readonly Finding[]): void {
  const announce = useAnnounce();
  const known = useRef<ReadonlySet<string> | null>(null);
  useEffect(() => {
    const stops = findings.filter(({ level }) => level === "stop");
    const before = known.current;
    const first = before && stops.find((finding) => !before.has(findingKey(finding)));
    known.current = new Set(stops.map(findingKey));
    if (first) announce(`Stop: ${findingText(model, first).title}.`, "urgent");
  }, [model, findings, announce]);
}

/** In the order of the job, each said once. */
const cautionsOfTheJob: readonly string[] = [
  ...new Set([...cautions.general, ...cautions.load, ...cautions.watch, ...cautions.open, ...cautions.unload]),
];

function KeptRules({ model, result }: { readonly model: SettingModel; readonly result: CheckResult }): ReactNode {
  const { kept, lookYourself, undecided } = result;
  return (
    <>
      <details className="setting-fold">
        <summary>
          <FindingIcon level="kept" />
          {kept.length === 1 ? "1 rule kept" : `${kept.length} rules kept`}
        </summary>
        <ul className="setting-rules">
          {kept.map(({ rule, message, source }) => (
            <li key={rule}>
              {messageText(model, message)}
              {source === commonPractice ? null : <span className="small muted"> {source}</span>}
            </li>
          ))}
          {undecided.length > 0 ? (
            <li className="muted">Not decided yet: {undecided.map((rule) => rule.replaceAll("-", " ")).join(", ")}.</li>
          ) : null}
        </ul>
      </details>
      <details className="setting-fold">
        <summary>
          <FindingIcon level="check" />
          Cautions for loading, watching, opening
        </summary>
        <ul className="setting-rules">
          {cautionsOfTheJob.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </details>
      <details className="setting-fold">
        <summary>
          <FindingIcon level="tip" />
          Look yourself: {lookYourself.length} things no drawing shows
        </summary>
        <ul className="setting-rules">
          {lookYourself.map(({ rule, message }) => (
            <li key={rule}>{messageText(model, message)}</li>
          ))}
        </ul>
      </details>
    </>
  );
}
