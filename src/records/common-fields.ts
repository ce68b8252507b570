import { z } from "zod";

/** Ids are short and safe in addresses and file names. */
export const id = z
  .string()
  .regex(
    /^[a-z0-9][a-z0-9-]{0,59}$/,
    "lower-case letters, digits and dashes, 60 at most, starting with a letter or digit",
  );

export const name = z.string().trim().min(1).max(80);

/** [m], inside what a kiln room can hold. */
export const length = z.number().min(0).max(10);
export const positiveLength = z.number().positive().max(10);
export const coordinate = z.number().min(-10).max(10);
/** [rad] */
export const angle = z.number().min(-100).max(100);
/** [kg] */
export const mass = z.number().positive().max(200);
/** [K], from a cold night to beyond any electric studio kiln. */
export const temperature = z.number().min(223.15).max(2073.15);
/** A calendar day of the studio, ISO 8601. */
export const day = z.iso.date();
