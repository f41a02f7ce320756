import "../styles/review.css";

import review from "../words/en/review.json";
import { learnWords } from "../words/say";

/** What every screen of the desk but the board needs: their words and looks, so that the first load stays small. */
learnWords(review);
