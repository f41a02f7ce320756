import type { BoardJob } from "../sync/desk";

/** Keep the jobs that hold every typed word somewhere: machine, title, name, state, people. */
export function filtered(jobs: readonly BoardJob[], words: string): readonly BoardJob[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  if (!wanted.length) return jobs;
  return jobs.filter((job) => {
    const said = [job.machine, job.title, job.job, job.state, ...job.people, job.uncovered?.opening ?? ""].join(" ").toLowerCase();
    return wanted.every((word) => said.includes(word));
  });
}

/** Put jobs that something stops first, then those that need a word, then open ones; within these the order stays. */
export function worstFirst(jobs: readonly BoardJob[]): readonly BoardJob[] {
  const place = ({ counts, state }: BoardJob) => (state === "released" ? 3 : counts.stop ? 0 : counts.decide ? 1 : 2);
  return [...jobs].sort((one, other) => place(one) - place(other));
}
