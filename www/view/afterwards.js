// What the first answer does not wait for: it is loaded as soon as the answer stands.
import { lazyPart } from "./lazy.js";

export const afterwards = lazyPart(() => import("./below.js"));
