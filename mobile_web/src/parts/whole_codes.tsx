const CODE = /(\b[A-Z]-[0-9]{4,6}-[0-9A-Z]\b)/;

/** Show a sentence in which no label's code is torn apart at its hyphens where a line ends. */
export function WholeCodes({ children }: { readonly children: string | undefined }) {
  return <>{children?.split(CODE).map((part, n) => (n % 2 ? <span class="code" key={n}>{part}</span> : part))}</>;
}
