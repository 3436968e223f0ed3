/** A value made when first asked for; what it is made from is let go then. */
export function once<T>(make: () => T): () => T {
  let open: (() => T) | null = make;
  let made: T;
  return () => {
    if (open) {
      made = open();
      open = null;
    }
    return made;
  };
}
