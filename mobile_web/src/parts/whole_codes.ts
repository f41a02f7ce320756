import { Fragment, h, options, type VNode } from "preact";

const CODE = /(\b[A-Z]-[0-9]{4,6}-[0-9A-Z]\b)/;
const RUN = "whole-codes";
const ONE = "whole-code";
/** What may hold no element, or shows text that is not broken into lines by the browser. */
const BARE = new Set([RUN, ONE, "option", "textarea", "title", "text", "tspan"]);

type Children = string | number | boolean | null | undefined | object | readonly Children[];

/** From now on no label's code is torn apart at its hyphens where a line ends, whatever sentence of the page it stands in. */
export function keepCodesWhole(): void {
  const before = options.vnode;
  options.vnode = (vnode) => {
    if (vnode.type === Fragment || (typeof vnode.type === "string" && !BARE.has(vnode.type))) mend(vnode);
    before?.(vnode);
  };
}

function mend(vnode: VNode): void {
  const props = vnode.props as { children?: Children };
  if (props.children !== undefined && hasCode(props.children)) props.children = whole(props.children);
}

function hasCode(children: Children): boolean {
  return Array.isArray(children) ? children.some(hasCode) : typeof children === "string" && CODE.test(children);
}

/** Put a run of text with a code into one element: where children are laid out side by side, it stays one of them, and the others keep their places. */
function whole(children: Children): Children {
  if (!Array.isArray(children)) return typeof children === "string" ? h(RUN, null, ...pieces(children)) : children;
  const given = children as readonly Children[];
  const kept: Children[] = [];
  let start = 0;
  while (start < given.length) {
    let end = start;
    while (end < given.length && isText(given[end])) end += 1;
    const run = given.slice(start, end);
    if (run.some(hasCode)) kept.push(h(RUN, null, ...run.flatMap((text) => pieces(written(text)))), ...run.slice(1).map(() => null));
    else kept.push(...run);
    const next = given[end];
    if (end < given.length) kept.push(next !== undefined && hasCode(next) ? whole(next) : next);
    start = end + 1;
  }
  return kept;
}

function pieces(text: string): (string | VNode)[] {
  return text.split(CODE).map((part, n) => (n % 2 ? h(ONE, null, part) : part));
}

function isText(child: Children): boolean {
  return typeof child !== "object" || child === null;
}

function written(child: Children): string {
  return typeof child === "string" || typeof child === "number" ? String(child) : "";
}
