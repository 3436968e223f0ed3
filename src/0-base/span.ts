/** A stretch of text: UTF-16 offsets, `from` included, `to` not. Counted from the start of its block unless said otherwise. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The same stretch counted from another start. */
export function shift(span: Span, by: number): Span {
  return { from: span.from + by, to: span.to + by };
}
