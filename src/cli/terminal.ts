import { styleText } from "node:util";
import { type Paint, plainPaint } from "../7-view/excerpt.js";

const styles = { error: "red", warning: "yellow", note: "cyan", quiet: "gray", strong: "bold" } as const;

/** Colours on a terminal that wants them; otherwise none. */
export function paintFor(stream: NodeJS.WriteStream): Paint {
  if (!stream.isTTY || process.env.NO_COLOR) return plainPaint;
  return (style, words) => styleText(styles[style], words);
}
