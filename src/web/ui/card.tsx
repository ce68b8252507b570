import { useId, type ReactNode } from "react";
import { classes } from "./classes.ts";
import { FindingIcon, type FindingLevel } from "./finding-icon.tsx";

export interface CardProps {
  readonly title?: ReactNode;
  /** Beside the title: buttons. */
  readonly tools?: ReactNode;
  /** At the right end of the title's line, quiet. */
  readonly aside?: ReactNode;
  /** Spoken name where there is no title. */
  readonly label?: string;
  /** No padding round the body (tables, drawings, lists of findings). */
  readonly flush?: boolean;
  readonly children: ReactNode;
  readonly className?: string;
}

/** A named region of the screen with a hairline round it. */
export function Card({ title, tools, aside, label, flush, children, className }: CardProps): ReactNode {
  const id = useId();
  const name = title === undefined ? (label === undefined ? {} : { "aria-label": label }) : { "aria-labelledby": id };
  return (
    <section className={classes("ui-card", className)} {...name}>
      {title === undefined && tools === undefined && aside === undefined ? null : (
        <header className="ui-card-head">
          {title === undefined ? null : <h2 id={id}>{title}</h2>}
          {tools}
          {aside === undefined ? null : <span className="ui-card-aside">{aside}</span>}
        </header>
      )}
      <div className={classes("ui-card-body", flush && "flush")}>{children}</div>
    </section>
  );
}

export interface FindingCardProps {
  readonly level: FindingLevel;
  /** What is wrong, in one sentence. */
  readonly title: ReactNode;
  /** Why it matters. */
  readonly why?: ReactNode;
  /** What to do. */
  readonly remedy?: ReactNode;
  /** Buttons: the one that mends it first. */
  readonly actions?: ReactNode;
  readonly isPicked?: boolean;
  readonly className?: string;
}

/** A finding is three things: what is wrong, why it matters, what to do. */
export function FindingCard({ level, title, why, remedy, actions, isPicked, className }: FindingCardProps): ReactNode {
  return (
    <article className={classes("ui-finding", isPicked && "picked", className)}>
      <FindingIcon level={level} />
      <div>
        <h3 className="ui-finding-title">{title}</h3>
        {why ? <p className="ui-finding-why">{why}</p> : null}
        {remedy ? <p className="ui-finding-remedy">{remedy}</p> : null}
        {actions ? <div className="ui-actions">{actions}</div> : null}
      </div>
    </article>
  );
}
