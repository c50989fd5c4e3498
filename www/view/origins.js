/**
 * The texts of "Where is this from?". Each says in words what is computed, from what, after whom, and where it stops.
 *
 * @import { OriginKey } from "./origin.js"
 * @typedef {{formula: string, inputs: string, source: string, limits: string}} Origin
 */
import { html } from "../vendor.js";

const MATERIALS = "The absorption of every finish and furnishing has its own source; open it under The room. That of every kind of piece stands under its name on the Kit shelf.";

/** @type {Readonly<Record<OriginKey, Origin>>} */
export const ORIGINS = Object.freeze({
  answer: {
    formula: "Decay time is how long sound takes to fall by 60 dB. The figure is the mean over the bands from 250 Hz, or from where statistics begin to hold, to 4 kHz. The range comes from 200 draws: each draw changes all that is not known, and 8 in 10 of the results lie in the range. The word is the share of draws that meet your goal.",
    inputs: "Size of the room, finishes, openings, furniture, pieces. What you have not touched is marked assumed. Sides vary by 2 cm, scattering by half as much again, absorption by what published values differ.",
    source: `Ranges of absorption after ISO 12999-2 and the spread of published rows. ${MATERIALS}`,
    limits: "A range is honest about what goes in, not about what is left out: rooms that are no box, spaces behind openings. One measured decay time would narrow it most.",
  },
  decay: {
    formula: "Sound energy is followed for every direction of the room. At each wall that it meets it loses what that wall absorbs; air and furniture take their part; rough surfaces turn some of it into other directions. The time is read from the fall between 5 and 25 dB, as from a measurement. Sabine's and Eyring's formulas stand beside it in the table.",
    inputs: "Size, the absorption and scattering of each surface with its parts and pieces, furniture as a whole, temperature and humidity.",
    source: `Energy balance of this project, built from Kuttruff, Room Acoustics, 6th ed. 2016, chapters 4 and 5; read as ISO 3382-1:2009; air ISO 9613-1; Sabine 1898; Eyring 1930. ${MATERIALS}`,
    limits: "Below the line a room rings at separate notes and one decay time does not describe it. Furniture has no place in this part. The tick leaves out what a group of pieces takes at its edges beside its area; the range counts between nothing and the whole of that, so with many small pieces the tick may lie above it. Against an independent tracing of rays through sixty random rooms it was off by 0.4 % in the middle in furnished rooms and 1.6 % in bare ones.",
  },
  bounces: {
    formula: "The loudspeaker is mirrored in the surface; where the straight line from the mirror image to the seat meets the surface is the mark. The longer way divided by the speed of sound is the delay. The level counts the longer way, the loudspeaker's own strength to that side, and what the surface with its pieces sends back, as a mean from 1 to 4 kHz. The small box is where the mark goes for heads 25 cm to either side and 10 cm up or down and for drivers down to 20 cm below the treble.",
    inputs: "Places of loudspeakers and seat, the loudspeaker's type and turn, the surface, its parts and pieces, what stands in the way.",
    source: "Allen and Berkley, J. Acoust. Soc. Am. 65 (1979) 943; partly covered walls by Kirchhoff's integral over their edges (Born and Wolf, Principles of Optics, section 8.9). Seat width, head and driver heights: common practice, no source.",
    limits: "Flat walls of a box. Edges send no sound into other walls. What furniture in the way takes off is named, not computed.",
  },
  comb: {
    formula: "A copy of the sound that comes Δt later adds to it at some frequencies and takes away at others: 10 times the logarithm of 1 + g² + 2 g cos(2π f Δt), g being the pressure of the bounce beside the direct sound. The first dip lies at 1 / (2 Δt). Blended: the mean energy over a third of an octave, as ears blend it.",
    inputs: "Delay and level of this one bounce.",
    source: "Everest, The Master Handbook of Acoustics, 4th ed. 2001, comb filters.",
    limits: "One bounce alone; in a room many overlap and fill each other's dips. A hard wall keeps the sign of the pressure; a soft piece shifts the dips a little. Ears also hear where a bounce comes from, which a curve does not show.",
  },
  shares: {
    formula: "Of all energy that reaches the seat: what comes straight from the loudspeaker, what comes within 20 ms after it, and what comes later. The first two come mostly from the bounces and the third from the decay; sound that a wall or a thing has scattered is followed from there. The three sum to 100 %.",
    inputs: "All that bounces and decay rest on, and the type of the loudspeakers.",
    source: "Clarity C50 and C80 as ISO 3382-1:2009; critical distance as Kuttruff, Room Acoustics. The border at 20 ms is a choice of this page.",
    limits: "Late sound that was scattered more than once is that of the whole room; a seat close to a wall can differ by 3 %. No person sits at the seat.",
  },
  response: {
    formula: "Above the bass: direct sound and the bounces off up to two surfaces added as waves, all later sound as energy. In the bass: the room's own notes. Both are joined where the notes lie too close to be told apart. The thick line is the mean over a third of an octave.",
    inputs: "Loudspeakers with type and turn, seat, surfaces with their pieces, furniture only where it throws back a bounce.",
    source: "Image sources as for the bounces; coupled notes as for the bass; third-octaves IEC 61260-1:2014.",
    limits: "Your loudspeakers' own response is not in it: the line is the room's part. Single narrow dips move when a head moves; do not trust one dip.",
  },
  bass: {
    formula: "A room rings at notes at which half waves fit between its walls. How strongly each is fed depends on where the loudspeakers stand in it, and how strongly it is heard on where the seat is. Walls and pieces couple and damp the notes. The map adds them up at every place, 10 cm apart, at the height of the ears.",
    inputs: "Size, absorption of the walls in the bass, pieces that work down there, loudspeakers, seat.",
    source: "Modes of a box coupled by the admittance of its walls (this project), held against finite elements: 0.01 to 0.4 dB from 20 to 120 Hz. Dip of the wall behind: a quarter of a wavelength fits between loudspeaker and wall.",
    limits: "Furniture and people damp no note here. Doors, windows and light walls that give way take bass in real rooms, so real peaks are often lower. Single notes are told up to the line in the drawing.",
  },
  absorbers: {
    formula: "Absorption times area: what one thing takes counts as so many square metres of open window. All of them together and the volume give the classical decay time.",
    inputs: "Area of each thing and its absorption in each octave.",
    source: MATERIALS,
    limits: "A group of pieces takes more at its edges than its area says; that is counted in the ranges (Thomasson, Acustica 44, 1980: between nothing and the whole of it), not in these areas.",
  },
  room: {
    formula: "Volume is width times length times height. The limit of statistics is 2000 times the root of decay time over volume: below it single notes stand apart.",
    inputs: "The three sides, and the decay time in the middle of the range.",
    source: "Limit of statistics: Schroeder's, common practice; sides are yours.",
    limits: "The page takes the room as one box. If yours is L-shaped or has a slope, enter the box that holds most of it and trust the order of plans more than their figures.",
  },
  goal: {
    formula: "A span of decay time for each taste; above 120 m³ both ends are 0.1 s longer.",
    inputs: "Your taste, or two figures of your own.",
    source: "A choice of this page. Published surveys of ordinary furnished living rooms found 0.35 to 0.45 s, and 0.69 s at 125 Hz falling to 0.40 s at 8 kHz; professional listening rooms are drier.",
    limits: "It is a matter of taste. Below the limit of statistics there is no goal.",
  },
  cost: {
    formula: "Number of pieces times your price of one. Pieces without a price are counted and named.",
    inputs: "Prices that you typed in.",
    source: "The page knows no prices. Those of the example are invented.",
    limits: "Fixings, covers, delivery and spares are not in it.",
  },
  checkup: {
    formula: "The 200 draws behind every range rest on what is not known: the absorption of each finish, of furniture, scattering, sizes, the model itself. The room that fits your measured decays best, without leaving what was likely before, becomes their new middle; the same draws are dealt about it, narrower. What would make this surer: one input after the other is held and the range drawn again.",
    inputs: "Decay times that you typed, with their plan, and all that the ranges rest on. The bare room is fitted first, the pieces last.",
    source: "Bayesian update of the draws by regularised least squares (this project). Tested on rooms with a known wrong input: after the check-up the prediction was closer to the truth in 9 of 10.",
    limits: "It cannot tell two finishes of one wall apart by one measurement. Figures that cannot come from this room change nothing and are said to be so. Causes are tried ones, ranked by how well they fit; the true one may be another.",
  },
  advice: {
    formula: "Kinds of pieces are tried in the places that your home allows. A set is scored in steps: one step is a decay time nearer the goal by a tenth, or early sound nearer to what your taste asks for by 3 dB. The piece that gains most is put up first, then the next, then pieces are swapped until no single swap helps. What counts, and how much, stands below the plans. How many are needed is counted piece after piece, each put where it shortens the middle decay most, and 8 times in 10 sure means that so many of 200 draws meet the goal. No piece closes a way to walk, 0.9 m wide, from a door to the seat or to another door, where there is one.",
    inputs: "The room, the plan in hand, your goal, limits, budget and prices; bounces, decay and bass as in the charts.",
    source: "The scoring is a choice of this page. Search: greedy steps, then exchanges, a standard method; the figures of each set come from the same computation as the charts. Width of ways: common practice, no source; what stands out by 4 inches at most, or hangs above 80 inches, takes nothing of them: 2010 ADA Standards, 307 (from memory).",
    limits: "It finds good sets, not surely the best one. It knows nothing of looks beyond your limits. Where some kinds have a price, plans leave out those that have none; where none has, pieces are counted instead of money. Ranges are not in the score; open a plan to see how sure it is.",
  },
  listen: {
    formula: "The direct sound and the bounces off up to three surfaces arrive at two ears on a rigid sphere, each at its own time. Later sound is noise that dies away in each band as the decay chart says; below the limit of statistics the room's notes ring. Plans are brought to one loudness. Ten blind rounds count how often you told them apart.",
    inputs: "The same images, decay and notes as in the charts; a sound made here, or a file of yours that stays on this device.",
    source: "Image sources (Allen and Berkley 1979), loudness ITU-R BS.1770 without gating, plucked strings Karplus and Strong 1983.",
    limits: "It shows the difference between plans, not how your room will sound. Left out: your own head, its turning, your loudspeakers' sound, noise from outside.",
  },
  recording: {
    formula: "The recorded response is cut into bands, its energy summed from the end backward, and the decay times read from the fall of that curve: 0 to 10 dB, 5 to 25 dB, 5 to 35 dB. Clarity is the energy before 50 or 80 ms beside that after it. The sum ends where the decay sinks into noise.",
    inputs: "A WAV file of an impulse response of your room. It never leaves this device.",
    source: "ISO 3382-1:2009; backward sum Schroeder 1965; end of the decay Lundeby and others 1995; filters IEC 61260-1:2014, run backward after Jacobsen and Rindel 1987.",
    limits: "Loudspeaker and microphone are in the recording. Where noise comes too near or the band is too narrow for so short a decay, there is a reason instead of a figure. A recording of music or talk is no impulse response.",
  },
  picture: {
    formula: "Each corner of a box is drawn where a straight line from your eye to it meets the paper.",
    inputs: "Places and sizes of pieces, and of furniture that says where it stands.",
    source: "Plain perspective.",
    limits: "For looking only: nothing is measured off it. Furniture without a place is not drawn; loudspeakers are drawn 20 cm wide whatever they are.",
  },
});

/** @param {OriginKey} key */
export function originText(key) {
  const { formula, inputs, source, limits } = ORIGINS[key];
  return html`<dl><dt>How it is worked out</dt><dd>${formula}</dd><dt>What goes in</dt><dd>${inputs}</dd><dt>After</dt><dd>${source}</dd><dt>Where it stops</dt><dd>${limits}</dd></dl>
    <p><a href="how.html" target="_blank" rel="noopener">How it works and where it stops</a></p>`;
}
