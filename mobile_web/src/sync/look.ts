import type { components } from "../api";
import { previewOf } from "../camera/preview";
import type { Shot } from "../camera/camera";
import { ask } from "./xhr";

export type QuickLook = components["schemas"]["QuickLook"];

/** How long the picture's count may take while the pad is open; later it comes as an entry of its own. */
const LOOK_MS = 20_000;

/** Have a shot counted by the server now; null when that takes too long or it is out of reach. */
export async function lookAt({ bytes, type }: Shot): Promise<QuickLook | null> {
  const small = await previewOf(bytes, type);
  if (!small) return null;
  const reply = await ask({ method: "POST", address: "/api/look", body: new Blob([small]), stallMs: LOOK_MS });
  return reply.status === 200 ? (reply.body as QuickLook) : null;
}
