import { asPrinted } from "../scan/label_code";
import { inWords, type Form } from "./forms";
import { foreignWord } from "./say";

/** Say a sentence of the server's in the page's language, from its form or where it is a standing one; labels as they are printed. */
export function served(sentence: string, forms: readonly Form[] = []): string {
  return foreignWord(`own.says.${sentence}`) ?? asPrinted(inWords(sentence, forms));
}
