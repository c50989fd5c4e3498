/**
 * What was just picked up has its places within reach once they are drawn: where the shelf is far from the drawing, the first of them comes
 * into view; whoever goes by keys is there.
 * @param {boolean} byKeys
 */
export function reachPlaces(byKeys) {
  requestAnimationFrame(() => {
    const place = /** @type {SVGElement|null} */ (document.querySelector("[data-landing]"));
    if (!place) document.querySelector(".cross")?.scrollIntoView({ block: "start" });
    else if (!isSeen(place)) place.scrollIntoView({ block: "center" });
    if (byKeys) place?.focus();
  });
}

/** Whether its middle is in the window and nothing lies over it. @param {Element} element */
function isSeen(element) {
  const { x, y, width, height } = element.getBoundingClientRect();
  const top = document.elementFromPoint(x + width / 2, y + height / 2);
  return top !== null && element.contains(top);
}
