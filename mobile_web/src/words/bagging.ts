import bagging from "./en/bagging.json";
import { learnWords } from "./say";

/** Learn what every screen with a camera or an undo bar says; a module of such a screen imports this. */
learnWords(bagging);
