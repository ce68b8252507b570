import { Fragment, type ReactNode } from "react";
import type { StudioDocument } from "#records";
import { found } from "#work";
import { Checkbox, FindingIcon, Tag } from "#web/ui";
import { addressOf } from "../route.ts";
import { dayWords, distanceWords, unitsOf } from "../words.ts";
import { fitKey, tooBig, type BenchRow, type Grouping, type RowGroup } from "./bench-rows.ts";
import { fitWords, planWords, rowName, stateWords, unfitWords } from "./bench-words.ts";
import { ShapePicture } from "./shape-picture.tsx";

export interface BenchTableProps {
  readonly groups: readonly RowGroup[];
  readonly by: Grouping;
  readonly document: StudioDocument;
  readonly today: string;
  readonly ticked: ReadonlySet<string>;
  readonly onTick: (row: BenchRow, isTicked: boolean) => void;
  readonly onOpen: (row: BenchRow) => void;
}

/** The pieces that wait, a line for those that are alike. */
export function BenchTable(props: BenchTableProps): ReactNode {
  const { groups, by, document, today } = props;
  return (
    <table className="bench-table">
      <thead>
        <tr>
          <th scope="col">
            <span className="unseen">Tick</span>
          </th>
          <th scope="col">Party</th>
          <th scope="col" className="number">
            Count
          </th>
          <th scope="col">Piece</th>
          <th scope="col">{by === "class" ? "Promised" : "Class"}</th>
          <th scope="col">State</th>
          <th scope="col">Fits</th>
          <th scope="col">Plan</th>
        </tr>
      </thead>
      {groups.map((group) => (
        <tbody key={group.key}>
          <tr className="group-row">
            <th scope="rowgroup" colSpan={8}>
              <GroupName group={group} by={by} document={document} today={today} />
            </th>
          </tr>
          {group.rows.map((row) => (
            <Row key={row.key} row={row} {...props} />
          ))}
        </tbody>
      ))}
    </table>
  );
}

function GroupName(props: {
  readonly group: RowGroup;
  readonly by: Grouping;
  readonly document: StudioDocument;
  readonly today: string;
}): ReactNode {
  const { group, by, document, today } = props;
  const first = group.rows[0];
  if (!first) return null;
  const count = group.rows.reduce((sum, row) => sum + row.pieces.length, 0);
  if (by === "day") {
    return (
      <>
        <span className="display bench-group">{dayWords(group.key, today)}</span>{" "}
        <span className="muted">{distanceWords(group.key, today)}</span>
      </>
    );
  }
  const name =
    by === "class"
      ? found(document.classes, group.key, "class").name
      : fitKey(first) === ""
        ? "Too big for any kiln"
        : `Fits ${fitKey(first)}`;
  return (
    <>
      <span className="display bench-group">{name}</span> <span className="muted">{count} in all</span>
    </>
  );
}

function Row(props: BenchTableProps & { readonly row: BenchRow }): ReactNode {
  const { row, by, document, today, ticked, onTick, onOpen } = props;
  const some = row.pieces.filter(({ id }) => ticked.has(id)).length;
  const name = rowName(row);
  return (
    <tr className={some > 0 ? "ticked" : ""}>
      <td className="bench-tick">
        <Checkbox
          label={`Tick ${name}`}
          isSelected={some === row.pieces.length}
          isIndeterminate={some > 0 && some < row.pieces.length}
          onChange={(isTicked) => onTick(row, isTicked)}
        />
      </td>
      <td>
        <b>{row.party.name}</b>
      </td>
      <td className="number">
        <b>{row.pieces.length}</b>
      </td>
      <td>
        <span className="bench-piece">
          <span className="bench-picture">
            <ShapePicture shape={row.shape} isBisque={row.firingClass.kind === "bisque"} />
          </span>
          <button
            type="button"
            className="bench-open"
            aria-label={`${row.shape.name}: open ${name}`}
            onClick={() => onOpen(row)}
          >
            {row.shape.name}
          </button>
        </span>
      </td>
      <td>
        {by === "class" ? dayWords(row.promised, today) : <Tag kind={row.firingClass.kind}>{row.firingClass.name}</Tag>}
      </td>
      <td>{stateWords(row, today, unitsOf(document))}</td>
      <td className="bench-fits">
        {tooBig(row) ? (
          <Fragment>
            <span className="bench-stop">
              <FindingIcon level="stop" size={20} /> <b>too big</b>
            </span>
            <span className="bench-why small muted">{row.fits.map((fit) => unfitWords(fit, document)).join(" ")}</span>
          </Fragment>
        ) : (
          fitWords(row)
        )}
      </td>
      <td>
        {row.setting ? (
          <a href={addressOf({ room: "setting", settingId: row.setting.id })}>{planWords(row)}</a>
        ) : (
          <span className="muted">{planWords(row)}</span>
        )}
      </td>
    </tr>
  );
}
