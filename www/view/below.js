// What stands below the first screen, and the fields behind the words of the Room facts: loaded together, after the first answer.
export { absorbersPart } from "./absorbers.js";
export { bassPart } from "./bass.js";
export { checkupPart } from "./checkup_part.js";
export { listenPart } from "./listen_part.js";
export { moreBounces } from "./more_bounces.js";
export { costsFold, partsList } from "./partslist.js";
export { responsePart } from "./response.js";
export { ROOM_FIELDS } from "./room_fields.js";
export { seatShare } from "./shares.js";
export { viewPart } from "./view_part.js";
