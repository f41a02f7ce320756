import { prepareZXingModule, readBarcodes, type ReaderOptions } from "zxing-wasm/reader";
import wasm from "zxing-wasm/reader/zxing_reader.wasm?url";

import { readLabel } from "./label_code";
import type { Look, Seen } from "./scanner";

/** Without this the library would fetch its program from elsewhere; ours lies beside the page. */
prepareZXingModule({ overrides: { locateFile: () => wasm } });

const MOST_IN_VIEW = 8;
const CHEAP: ReaderOptions = {
  formats: ["QRCode"],
  maxNumberOfSymbols: MOST_IN_VIEW,
  tryHarder: false,
  tryRotate: false,
  tryInvert: false,
  tryDownscale: false,
};
const HARD: ReaderOptions = { ...CHEAP, tryHarder: true, tryRotate: true, tryDownscale: true };

addEventListener("message", (event: MessageEvent<Look>) => {
  const { picture, hard, turn } = event.data;
  void labelsIn(picture, hard).then((seen) => postMessage({ turn, seen }));
});

async function labelsIn(picture: ImageBitmap, hard: boolean): Promise<readonly Seen[]> {
  const canvas = new OffscreenCanvas(picture.width, picture.height);
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (!context) return [];
  context.drawImage(picture, 0, 0);
  picture.close();
  const found = await readBarcodes(context.getImageData(0, 0, canvas.width, canvas.height), hard ? HARD : CHEAP);
  return found.flatMap((symbol) => {
    const label = symbol.isValid ? readLabel(symbol.text) : null;
    return label ? [{ ...label, text: symbol.text }] : [];
  });
}
