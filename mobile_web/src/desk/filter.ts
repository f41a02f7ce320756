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
