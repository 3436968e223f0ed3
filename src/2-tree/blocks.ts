import type { SyntaxNode, Tree } from "@lezer/common";

/** A top-level item with all that is indented under it: the unit that is read, judged and kept. */
export interface Block {
  readonly from: number;
  readonly text: string;
  readonly node: SyntaxNode;
}

/** The blocks of a document in order. Headings, notes and comments between them belong to none. */
export function blocksOf(text: string, tree: Tree): readonly Block[] {
  const blocks: Block[] = [];
  const add = (node: SyntaxNode): void => {
    for (let child = node.firstChild; child; child = child.nextSibling) {
      if (child.name === "Body") add(child);
      else if (child.name === "Item") blocks.push({ from: child.from, text: text.slice(child.from, child.to), node: child });
    }
  };
  add(tree.topNode);
  return blocks;
}
