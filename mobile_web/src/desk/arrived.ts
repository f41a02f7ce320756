/** Put the focus on a screen's heading as it comes up, unless somebody is at work elsewhere on the page already. */
export function arrived(heading: HTMLElement | null): void {
  if (document.activeElement === document.body) heading?.focus({ preventScroll: true });
}
