import { parser as generated } from "./generated/parser.js";

/**
 * The plan language's parser. Nodes of more than 128 characters stand alone in the tree, so that a block is a node that
 * an edit elsewhere leaves whole: with the usual 1,024 a block lies in a buffer with others and is parsed again.
 */
export const planParser = generated.configure({ bufferLength: 128 });
