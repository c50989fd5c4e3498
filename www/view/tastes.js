/** How a room should sound, in words. */
export const TASTES = /** @type {const} */ ({ focused: "focused", "lived-in": "lived-in", spacious: "spacious" });
