import createClient from "openapi-fetch";

import type { paths } from "../api";
import { notSignedIn } from "./gate";

/** The one way to the server's API; an answer that nobody is signed in leads to signing in, and back to where one was. */
export const client = createClient<paths>({ headers: { accept: "application/json" } });

client.use({
  onResponse({ response, request }) {
    if (response.status === 401 && !new URL(request.url).pathname.startsWith("/api/session")) notSignedIn();
  },
});
