import { workPath, workRoute, type WorkRoute } from "./work/route";
import { deskPath, deskRoute, type DeskRoute } from "./desk/route";
import { whoPath, whoRoute, type WhoRoute } from "./who/route";
import { phonePath, phoneRoute, type PhoneRoute } from "./phone/route";
import { handPath, handRoute, type HandRoute } from "./hand/route";

/** Where in the page one is: each address names one screen and what it is about. */
export type Route =
  | { readonly screen: "jobs" }
  | { readonly screen: "checks"; readonly check: string }
  | { readonly screen: JobScreen; readonly job: string }
  | { readonly screen: "bag"; readonly job: string }
  | { readonly screen: "container"; readonly job: string; readonly container: string }
  | { readonly screen: "photo"; readonly job: string; readonly photo: string }
  | { readonly screen: "label"; readonly code: string }
  | DeskRoute
  | HandRoute
  | WhoRoute
  | WorkRoute
  | PhoneRoute
  | { readonly screen: "missing" };
export type JobScreen = "findings" | "containers" | "photos" | "torque" | "entries";

const JOB_SCREENS: readonly JobScreen[] = ["findings", "containers", "photos", "torque", "entries"];

/** Read an address's path, as `location.pathname` gives it. */
export function routeFrom(pathname: string): Route {
  const parts = pathname.split("/").filter(Boolean).map(decoded);
  const [room, name, part, thing] = parts;
  if (room === undefined) return { screen: "jobs" };
  const desk = deskRoute(parts) ?? phoneRoute(parts) ?? handRoute(parts) ?? whoRoute(parts) ?? workRoute(parts);
  if (desk) return desk;
  if ((room === "labels" || room.toLowerCase() === "l") && name !== undefined && parts.length === 2) return { screen: "label", code: name };
  if (room === "checks" && parts.length < 3) return { screen: "checks", check: name ?? "" };
  if (room !== "jobs" || name === undefined || parts.length > 4) return { screen: "missing" };
  if (part === undefined) return { screen: "findings", job: name };
  if (thing === undefined && part === "bag") return { screen: "bag", job: name };
  if (thing === undefined) return jobScreen(name, part);
  if (part === "containers") return { screen: "container", job: name, container: thing };
  if (part === "photos") return { screen: "photo", job: name, photo: thing };
  return { screen: "missing" };
}

/** The job that an address is about, also where it names no screen of it; null where it is about none. */
export function jobIn(pathname: string): string | null {
  const [room, job] = pathname.split("/").filter(Boolean).map(decoded);
  return room === "jobs" && job !== undefined ? job : null;
}

/** Write the path of a route; `routeFrom` reads it back. */
export function pathOf(route: Route): string {
  switch (route.screen) {
    case "jobs":
      return "/";
    case "checks":
      return route.check ? `/checks/${encodeURIComponent(route.check)}` : "/checks";
    case "label":
      return `/labels/${encodeURIComponent(route.code)}`;
    case "missing":
      return "/missing";
    case "desk":
    case "review":
      return deskPath(route);
    case "phone":
      return phonePath(route);
    case "who":
      return whoPath(route);
    case "hand":
    case "first":
      return handPath(route);
    case "container":
      return `/jobs/${encodeURIComponent(route.job)}/containers/${encodeURIComponent(route.container)}`;
    case "photo":
      return `/jobs/${encodeURIComponent(route.job)}/photos/${encodeURIComponent(route.photo)}`;
    case "work":
      return workPath(route);
    case "findings":
      return `/jobs/${encodeURIComponent(route.job)}`;
    default:
      return `/jobs/${encodeURIComponent(route.job)}/${route.screen}`;
  }
}

function jobScreen(job: string, part: string): Route {
  const screen = JOB_SCREENS.find((name) => name === part);
  return screen ? { screen, job } : { screen: "missing" };
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
