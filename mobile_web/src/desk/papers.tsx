import { say, type Message } from "../words/say";

const PAPERS: readonly (readonly [string, Message])[] = [
  ["record.pdf?paper=a4", "papers.a4"],
  ["record.pdf?paper=letter", "papers.letter"],
  ["record.pdf?paper=a4&customer=true", "papers.customer"],
  ["record.pdf?paper=letter&customer=true", "papers.customer.letter"],
  ["record.txt", "papers.text"],
  ["release.json", "papers.signed"],
];

/** The release record on paper, for the shop and for the customer. */
export function Papers({ job }: { readonly job: string }) {
  return (
    <nav class="tools no-print" aria-label={say("papers.title")}>
      {PAPERS.map(([file, word]) => (
        <a key={file} class="button" href={`/api/jobs/${encodeURIComponent(job)}/${file}`} target="_blank" rel="noopener">
          {say(word)}
        </a>
      ))}
    </nav>
  );
}
