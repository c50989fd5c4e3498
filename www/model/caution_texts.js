// The words of the cautions. Common practice, no source; the margins named elsewhere are planning margins of this page, not code.

/** @typedef {"overhead"|"sprinkler"|"keep-clear"|"heat"|"way-out"|"vent"|"drilling"|"fixing"|"old-building"|"fire"|"fibre"|"tipping"|"damp"|"rented"|"earthquake"|"ladder"|"foot"} CautionId */

/** The line at the foot of the page and of the sheet. */
export const FOOT = "This page estimates sound. It is not structural, fire, electrical or health advice. Local rules, your lease and qualified people decide what may go where.";

/** The line on the Kit shelf. */
export const SHELF = "Panels change the sound inside the room. They do not keep it from the neighbours.";

/** Beside the check-up by ear. */
export const CLAP = "No balloons or bangs near ears.";

/** Beside Fair listen. World Health Organization, Safe listening devices and systems, 2019 (from memory). */
export const LISTEN = "Start low. For regular listening, guidance for adults is about 80 dB(A) for 40 hours a week, 75 for children; 3 dB more halves the time. This page cannot measure your level.";

/** What weighs most comes first. @type {readonly CautionId[]} */
export const CAUTION_ORDER = Object.freeze(/** @type {CautionId[]} */ ([
  "overhead", "sprinkler", "keep-clear", "heat", "way-out", "vent", "drilling", "fixing", "old-building",
  "fire", "fibre", "tipping", "damp", "rented", "earthquake", "ladder", "foot",
]));

/** "about N kg" stands for the weight. @type {Readonly<Record<CautionId, string>>} */
export const CAUTION_TEXTS = Object.freeze({
  overhead: "This will hang over people. Fix into structure, not into board alone, with a second independent hold, and know the weight: about N kg. If you are unsure what the ceiling is made of, ask a qualified installer.",
  sprinkler: "Keep this clear. A panel here can stop water or smoke from reaching the device. Never cover, paint or hang from one. The building's fire adviser decides distances, and any cloud under sprinklers.",
  "keep-clear": "Keep the marked zone clear, by its margin at least: what is there may need air, reach or repair.",
  heat: "Heat and cloth do not mix. The appliance's manual may ask for more than this margin.",
  "way-out": "Leave the way out and any escape window free and openable, by day and in the dark. Nothing in shared halls or stairs.",
  vent: "Leave the air its path, in and out.",
  drilling: "Look for cables, water and gas before drilling: above, below and beside switches, sockets, taps and radiators especially. Use a detector, and do not take silence from it as proof. Switch off the circuit if in doubt.",
  fixing: "Fixings depend on the wall: masonry, hollow board and old plaster need different ones. Check the rating against the weight shown, with room to spare.",
  "old-building": "Older textured coatings, boards and paints can contain asbestos or lead. Do not drill, scrape or sand until it has been checked by someone qualified.",
  fire: "Ask for the reaction-to-fire class of the finished piece (for example EN 13501-1, ASTM E84, or a room test). Packing, bedding or unmarked foam does not belong on a wall or ceiling.",
  fibre: "Follow the product's safety sheet. Gloves, long sleeves, eye protection when overhead, a suitable dust mask; air the room; vacuum or wipe, do not sweep. Wrap the core fully before it goes in the room. If someone has a lung condition, ask first.",
  tipping: "Can a child, a pet or a bump tip it? Weight the foot or tether it.",
  damp: "Leave air behind and look after a month: soft pieces on cold walls can trap damp.",
  rented: "Ask before fixing. Adhesive can pull paint and plaster too.",
  earthquake: "Ask locally about restraint for hanging and standing pieces.",
  ladder: "Two people for anything over your head or wider than your reach.",
  foot: FOOT,
});
