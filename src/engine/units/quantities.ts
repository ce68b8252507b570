/*
 * Quantities at public doors, all SI. A plain number may be given where a quantity is asked for, but one
 * quantity may not be given for another: Kelvin do not pass for Metres. Inside a room, typed arrays with
 * stated length and order are used instead.
 */
declare const quantity: unique symbol;
type Quantity<Unit extends string> = number & { readonly [quantity]?: Unit };

export type Metres = Quantity<"m">;
export type SquareMetres = Quantity<"m2">;
export type Kilograms = Quantity<"kg">;
export type Seconds = Quantity<"s">;
/** Absolute temperature. A difference is `KelvinDifference`. */
export type Kelvin = Quantity<"K">;
export type KelvinDifference = Quantity<"K difference">;
export type KelvinPerSecond = Quantity<"K/s">;
export type Radians = Quantity<"rad">;
export type Watts = Quantity<"W">;
export type Joules = Quantity<"J">;
export type Volts = Quantity<"V">;
export type Millivolts = Quantity<"mV">;
/** Days since 1970-01-01 in the studio's own calendar; whole for a promised day. */
export type DayNumber = Quantity<"day">;
