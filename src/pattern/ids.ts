/** What the parts of a design are called by each other: plain text in the file, told apart by kind in the code. */
declare const brand: unique symbol;
type Id<B extends string> = string & { readonly [brand]: B };
export type PieceId = Id<'piece'>;
export type LineId = Id<'line'>;
export type ColourId = Id<'colour'>;
export type TrimId = Id<'trim'>;
export type ClosingId = Id<'closing'>;
export type RemnantId = Id<'remnant'>;
