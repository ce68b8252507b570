import type { ReactNode } from "react";

export interface TableData {
  readonly caption: string;
  readonly columns: readonly string[];
  /** First cell of each row names it; numbers stand at the right. */
  readonly rows: readonly (readonly string[])[];
}

/** The same data as a drawing, as a table: shown, or for screen readers only. */
export function ChartTable({
  data,
  unseen = false,
}: {
  readonly data: TableData;
  readonly unseen?: boolean;
}): ReactNode {
  return (
    // Wide tables scroll sideways: then the keyboard must be able to get there.
    <div
      {...(unseen
        ? { className: "unseen" }
        : { className: "chart-table", role: "region", tabIndex: 0, "aria-label": data.caption })}
    >
      <table>
        <caption className={unseen ? undefined : "unseen"}>{data.caption}</caption>
        <thead>
          <tr>
            {data.columns.map((column, i) => (
              <th key={column} scope="col" className={i === 0 ? undefined : "number"}>
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {data.rows.map((row) => (
            <tr key={row[0]}>
              {row.map((cell, i) =>
                i === 0 ? (
                  <th key={data.columns[i]} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={data.columns[i]} className="number">
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
