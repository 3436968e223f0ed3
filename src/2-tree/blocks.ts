import type { SyntaxNode, Tree } from "@lezer/common";

/** A top-level item with all that is indented under it: the unit that is read, judged and kept. */
export interface Block {
  readonly from: number;
  readonly text: string;
  readonly node: SyntaxNode;
}

/** Where the line ends that is read up to `at`: a comment behind the last line of a document is no part of its item. */
function lineEnd(text: string, at: number): number {
  if (text[at - 1] === "\n") return at;
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end;
}

/** The blocks of a document in order. Headings, notes and comments between them belong to none. */
export function blocksOf(text: string, tree: Tree): readonly Block[] {
  const blocks: Block[] = [];
  const add = (node: SyntaxNode): void => {
    for (let child = node.firstChild; child; child = child.nextSibling) {
      if (child.name === "Body") add(child);
      else if (child.name === "Item") blocks.push({ from: child.from, text: text.slice(child.from, lineEnd(text, child.to)), node: child });
    }
  };
  add(tree.topNode);
  return blocks;
}
