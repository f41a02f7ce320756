/** Put the focus on what comes up in place of what was tapped. */
export function focused(element: HTMLElement | null): void {
  element?.focus({ preventScroll: true });
}
