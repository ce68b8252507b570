import { failure, success, type Outcome } from "#base";
import { kelvinFromCelsius, type Kelvin, type Seconds } from "#engine/units";

/** A temperature history read from a log. */
export interface HistoryLog {
  readonly times: readonly Seconds[];
  readonly temperatures: readonly Kelvin[];
}

/** What is wrong with a log, where (line counted from 1), and what to do. */
export interface LogFault {
  readonly line: number;
  readonly problem: string;
  readonly remedy: string;
}

/** Kilns and their logs stay inside this [C]. */
const coldest = -50;
const hottest = 1800;

/**
 * Reads a log in CSV with the columns `t_s` (seconds, rising) and `temp_c` (Celsius); others are passed over.
 *
 * Empty lines, a byte-order mark, quotes and either line end are accepted. Nothing is guessed or left out: the first
 * line that cannot be read stops it.
 */
export function readHistoryCsv(text: string): Outcome<HistoryLog, LogFault> {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  const headerAt = lines.findIndex((line) => line.trim() !== "");
  const fault = (line: number, problem: string, remedy: string): Outcome<HistoryLog, LogFault> =>
    failure({ line: line + 1, problem, remedy });
  if (headerAt < 0) return fault(0, "The file is empty.", "Export the log again, with a first line t_s,temp_c.");
  const header = cellsOf(lines[headerAt]).map((cell) => cell.toLowerCase());
  const timeColumn = header.indexOf("t_s");
  const temperatureColumn = header.indexOf("temp_c");
  if (timeColumn < 0 || temperatureColumn < 0) {
    const missing = timeColumn < 0 ? "t_s" : "temp_c";
    const semicolons = lines[headerAt].includes(";") ? " Use commas between columns, not semicolons." : "";
    return fault(
      headerAt,
      `The first line has no column ${missing}: "${lines[headerAt].slice(0, 60)}".`,
      `Make the first line t_s,temp_c: seconds and degrees Celsius.${semicolons}`,
    );
  }
  const times: number[] = [];
  const temperatures: number[] = [];
  for (let i = headerAt + 1; i < lines.length; i++) {
    if (lines[i].trim() === "") continue;
    const cells = cellsOf(lines[i]);
    if (cells.length !== header.length) {
      return fault(
        i,
        `There are ${cells.length} values where the first line names ${header.length}.`,
        "Give one value per column, with a point as the decimal mark: 998.5, not 998,5.",
      );
    }
    const time = numberOf(cells[timeColumn]);
    const celsius = numberOf(cells[temperatureColumn]);
    if (time === null)
      return fault(
        i,
        `t_s is "${cells[timeColumn]}", not a number.`,
        "Write the time in seconds since the start, such as 3600.",
      );
    if (celsius === null)
      return fault(
        i,
        `temp_c is "${cells[temperatureColumn]}", not a number.`,
        "Write the temperature in Celsius, or take the line out if the reading is missing.",
      );
    if (celsius < coldest || celsius > hottest) {
      return fault(
        i,
        `temp_c is ${celsius}, outside ${coldest} to ${hottest} C.`,
        "Check that the column is in Celsius and that the sensor was connected; take out false readings.",
      );
    }
    const before = times.at(-1);
    if (before !== undefined && time <= before) {
      return fault(
        i,
        `t_s is ${time}, not later than ${before} in the line above.`,
        "Put the lines in order of time and take out doubles; t_s counts on past midnight.",
      );
    }
    times.push(time);
    temperatures.push(kelvinFromCelsius(celsius));
  }
  if (times.length < 2) {
    return fault(
      lines.length - 1,
      `There ${times.length === 1 ? "is 1 reading" : "are no readings"}; a history needs 2 or more.`,
      "Export the whole firing, heating and cooling.",
    );
  }
  return success({ times, temperatures });
}

function cellsOf(line: string): string[] {
  return line.split(",").map((cell) =>
    cell
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .trim(),
  );
}

function numberOf(cell: string): number | null {
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(cell)) return null;
  const value = Number(cell);
  return Number.isFinite(value) ? value : null;
}
