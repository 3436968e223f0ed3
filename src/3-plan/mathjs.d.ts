/**
 * Factories that mathjs exports without types: each makes one class from the functions it is given, so that nothing is
 * loaded or reachable but what is handed over.
 */
import "mathjs";

declare module "mathjs" {
  type NumberFunction = (...values: number[]) => unknown;

  export function createUnitClass(uses: {
    readonly config: { readonly predictable: boolean };
    readonly addScalar: NumberFunction;
    readonly subtractScalar: NumberFunction;
    readonly multiplyScalar: NumberFunction;
    readonly divideScalar: NumberFunction;
    readonly pow: NumberFunction;
    readonly abs: NumberFunction;
    readonly fix: NumberFunction;
    readonly round: NumberFunction;
    readonly equal: NumberFunction;
    readonly isNumeric: (value: unknown) => boolean;
    readonly format: (value: unknown) => string;
    readonly number: (value: unknown) => number;
    readonly Complex: unknown;
    readonly BigNumber: unknown;
    readonly Fraction: unknown;
  }): {
    new (value: number, unit?: string): Unit;
    createUnitSingle(name: string, options: { readonly aliases: readonly string[] }): Unit;
  };

  interface NodeClass {}
  export function createNode(uses: { readonly mathWithTransform: object }): NodeClass;
  export function createConstantNode(uses: {
    readonly Node: NodeClass;
    readonly isBounded: (value: number) => boolean;
  }): new (value: number) => MathNode;
  export function createSymbolNode(uses: { readonly math: object; readonly Node: NodeClass }): new (name: string) => SymbolNode;
  export function createParenthesisNode(uses: { readonly Node: NodeClass }): new (content: MathNode) => MathNode;
  export function createFunctionNode(uses: {
    readonly math: object;
    readonly Node: NodeClass;
    readonly SymbolNode: unknown;
  }): new (name: SymbolNode, inputs: MathNode[]) => MathNode;
}
