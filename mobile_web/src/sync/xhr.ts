/** What came of a request: its status and answer, or that nobody answered. */
export type Reply = { readonly status: number; readonly body: unknown } | { readonly status: null };

/** How to send: `stallMs` is how long nothing may move, either way, before it counts as lost; there is no limit of the whole. */
export interface Sending {
  readonly method: "GET" | "PUT" | "POST";
  readonly address: string;
  readonly body?: Blob | string;
  readonly stallMs: number;
  readonly progress?: (sent: number) => void;
}

/** Send by XMLHttpRequest, which tells how far an upload has come; `fetch` does not. */
export function ask({ method, address, body, stallMs, progress }: Sending): Promise<Reply> {
  return new Promise((answer) => {
    const request = new XMLHttpRequest();
    let timer: ReturnType<typeof setTimeout>;
    const moved = () => {
      clearTimeout(timer);
      timer = setTimeout(() => request.abort(), stallMs);
    };
    request.upload.onprogress = (event) => {
      moved();
      progress?.(event.loaded);
    };
    request.onreadystatechange = moved;
    request.onprogress = moved;
    request.onloadend = () => {
      clearTimeout(timer);
      answer(request.status ? { status: request.status, body: parsed(request.responseText) } : { status: null });
    };
    request.open(method, address);
    request.setRequestHeader("accept", "application/json");
    if (body !== undefined) request.setRequestHeader("content-type", typeof body === "string" ? "application/json" : "application/octet-stream");
    moved();
    request.send(body ?? null);
  });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
