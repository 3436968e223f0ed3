import { renderSVG } from "uqr";

/** What a code holds, in characters: version 40 at the lowest level of correction holds 2,953 bytes (ISO/IEC 18004). */
export const mostInCode = 2_953;

/** A link as a QR code, drawn; null where it is too long for one. */
export function codeOf(link: string): string | null {
  if (link.length > mostInCode) return null;
  return renderSVG(link, { ecc: "L", border: 4 });
}
