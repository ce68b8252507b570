import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { UsageError } from "./command.ts";

/**
 * Writes a file whole or not at all: beside it first, then in its place. An older file stays until the new one is
 * safely on the disk.
 *
 * @throws UsageError naming the file if it cannot be written
 */
export function writeWhole(file: string, content: string | Uint8Array): void {
  const beside = `${file}.${process.pid}.part`;
  try {
    const handle = openSync(beside, "w");
    try {
      writeSync(handle, content as string);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    const code = (error as NodeJS.ErrnoException).code ?? String(error);
    const why = code === "ENOSPC" ? "the disk is full" : code === "ENOENT" ? "its folder is missing" : code;
    throw new UsageError(`${file} cannot be written: ${why}. Nothing was changed.`);
  }
}
