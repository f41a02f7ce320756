import "../styles/phone.css";
import "../words/bagging";
import phone from "../words/en/phone.json";
import { learnWords } from "../words/say";

learnWords(phone);

export const loadWaiting = () => import("./waiting").then(({ WaitingHere }) => WaitingHere);
export const loadSort = () => import("./sort").then(({ Sort }) => Sort);
