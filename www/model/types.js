/**
 * The shapes that travel round the page: the scenario document, the report of the core, and the state.
 * Data keys are those of the scenario file and of the report (snake_case with their unit); the page's own
 * fields are camelCase. Lengths are metres. This file holds types only and is the one place to look them up.
 *
 * @typedef {"left"|"right"|"front"|"back"|"floor"|"ceiling"} SurfaceName
 * @typedef {"wall"|"door"|"window"|"opening"|"built-in"} PartRole
 *
 * @typedef {object} Rect  A rectangle on a surface; (u_m, v_m) is the corner nearest the surface's origin.
 * @property {number} u_m
 * @property {number} v_m
 * @property {number} width_m   along u
 * @property {number} height_m  along v
 *
 * @typedef {Rect & {role: PartRole, finish: string, depth_m?: number, swing_m?: number}} Part
 * @typedef {Rect & {surface: SurfaceName, margin_m: number, why: string}} KeepClear
 * @typedef {{finish: string, parts?: Part[]}} Surface
 * @typedef {{kind: string, count: number,
 *   at?: {x_m: number, y_m: number, width_m: number, depth_m: number, height_m: number}}} Furnishing
 *
 * @typedef {object} Room
 * @property {number} width_m   along x
 * @property {number} length_m  along y
 * @property {number} height_m  along z
 * @property {number} [temperature_c]
 * @property {number} [humidity_percent]
 * @property {Record<SurfaceName, Surface>} surfaces
 * @property {Furnishing[]} [furnishings]
 * @property {KeepClear[]} [keep_clear]
 * @property {string[]} [conditions]
 *
 * @typedef {{x_m: number, y_m: number, z_m: number}} Place3
 * @typedef {Place3 & {directivity?: "narrow"|"ordinary"|"wide", toe_in_deg?: number}} Loudspeaker
 * @typedef {{loudspeakers: Loudspeaker[], seat?: Place3}} Listening
 *
 * @typedef {{porous: {thickness_mm: number, flow_resistivity_pa_s_per_m2: number}} | {gap: {thickness_mm: number}}
 *   | {perforated: {thickness_mm: number, hole_mm: number, pitch_mm: number}}
 *   | {slotted: {thickness_mm: number, slot_mm: number, pitch_mm: number}}
 *   | {membrane: {mass_kg_per_m2: number, loss?: number}}
 *   | {cloth: {flow_resistance_pa_s_per_m: number, mass_kg_per_m2?: number}}
 *   | {board: {thickness_mm: number, density_kg_per_m3: number}}} Layer  from the room's side to the wall
 * @typedef {{layers: Layer[]} | {scattering: {depth_mm: number, period_mm: number}} | {bands_hz: number[], absorption: number[]}} Absorber
 * @typedef {"surface"|"corner"|"stand"|"curtain"|"floor"} Stands  how a kind is meant to be placed
 * @typedef {"picture"|"furniture"} Looks  what a piece may be taken for
 * @typedef {object} Kind  A kind of piece: `width_m` by `height_m` as it hangs upright.
 * @property {string} id
 * @property {string} name
 * @property {number} width_m
 * @property {number} height_m
 * @property {number} [price]
 * @property {number} [price_per_m2]    of its face; a price of its own goes before it
 * @property {number} [mass_kg]
 * @property {number} [depth_mm]        only beside a data sheet; layers have their own depth
 * @property {number|number[]} [scattering]
 * @property {Stands} [stands]
 * @property {number} [fullness]        of a curtain: width of its cloth over its own
 * @property {Looks} [looks]            without it plainly a panel; curtains and rugs are furniture anyway
 * @property {Absorber} absorber
 *
 * @typedef {{kit: string, place?: "surface", surface: SurfaceName, u_m: number, v_m: number, turned?: boolean}} SurfacePiece
 * @typedef {{kit: string, place: "corner", edge: string, z_m: number}} CornerPiece
 * @typedef {{kit: string, place: "stand", x_m: number, y_m: number, z_m: number, turn_deg: number}} StandPiece
 * @typedef {{kit: string, place: "curtain", surface: SurfaceName, u_m: number, v_m: number, open?: number}} CurtainPiece
 * @typedef {SurfacePiece|CornerPiece|StandPiece|CurtainPiece} Piece
 * @typedef {{name: string, pieces: Piece[], listening?: Listening}} Plan
 *
 * @typedef {{plan: string, bands_hz: number[], decay_s: number[]}} Measured  decay times of a plan, by its name
 *
 * @typedef {object} Scenario
 * @property {1} format
 * @property {string} title
 * @property {Room} room
 * @property {Listening} listening
 * @property {{taste: "focused"|"lived-in"|"spacious"} | {low_s: number, high_s: number}} [goal]
 * @property {{budget?: number, no_drilling?: boolean, bare?: SurfaceName[], max_depth_m?: number,
 *   min_height_m?: number, max_height_m?: number, max_visible?: number, looks_like?: Looks[]}} [limits]
 * @property {string} [currency]        the sign of the prices, of the person's own
 * @property {Kind[]} [kit]
 * @property {Plan[]} plans
 * @property {Measured[]} [measured]
 * @property {{id: string, name: string, bands_hz: number[], absorption: number[], scattering?: number|number[]}[]} [own_finishes]
 * @property {{id: string, name: string, bands_hz: number[], absorption_area_m2: number[], surface_m2: number}[]} [own_furnishings]
 * @property {string[]} [assumed]
 *
 * What the core answers. Series have 24 entries, one per third-octave band 50 Hz … 10 kHz; NaN where not defined.
 *
 * @typedef {object} Reflection
 * @property {number} loudspeaker   index
 * @property {number} order
 * @property {SurfaceName[]} surfaces
 * @property {[number, number, number][]} points_m  where it meets each surface, room axes
 * @property {number} distance_m
 * @property {number} delay_s       after the direct sound of the same loudspeaker
 * @property {Float64Array} level_db  re that direct sound
 * @property {[number, number, number]} direction
 * @property {number[]} pieces      index in the plan, of pieces under the point
 * @property {number[]} parts       index on the surface, of parts under the point
 * @property {number} [furnishing]  index of the furnishing that it comes off; such a reflection names no surface
 * @property {number[]} [blocked_by]   furnishings in its way
 * @property {number[]} [screened_by]  pieces in its way: screens that stand free
 * @property {Zone[]} [zones]       of first order: the area that matters round each point, at 1 kHz
 * @property {{frequency_hz: number, depth_db: number}[]} [dips]  of first order: what it does to the direct sound
 *
 * @typedef {object} Zone  The first Fresnel zone on a surface at 1 kHz, an ellipse round the bounce; it grows as 1 / √f.
 * @property {number} semi_along_m
 * @property {number} semi_across_m
 * @property {[number, number]} along  unit vector (u, v) of the longer axis on the surface
 *
 * @typedef {object} SeatReport  What of the sound at the seat is direct, early (first 20 ms after it) and late; 24 bands each.
 * @property {Float64Array} direct_share
 * @property {Float64Array} early_share
 * @property {Float64Array} late_share
 * @property {Float64Array} c50_db
 * @property {Float64Array} c80_db
 * @property {Float64Array} critical_distance_m
 * @property {Float64Array[]} index_db  directivity index of each loudspeaker
 *
 * @typedef {object} FieldReport  How even the late sound is.
 * @property {string|null} bent       in words, where the decay is not one straight line
 * @property {{surfaces?: SurfaceName[], surface?: SurfaceName, share: number}[]} carriers  which surfaces the late sound lives on
 * @typedef {{surfaces: [SurfaceName, SurfaceName], repeats_per_s: number}} Flutter
 *
 * @typedef {{what: "surface"|"part"|"piece"|"furnishing"|"air", name: string, area_m2: Float64Array}} Absorber_m2
 *
 * @typedef {object} PlanReport
 * @property {string} name
 * @property {{volume_m3: number, area_m2: number, mean_free_path_m: number, statistics_from_hz: number|null}} room
 * @property {Record<SurfaceName, Float64Array>} absorption
 * @property {{surfaces: Float64Array, pieces: Float64Array, furnishings: Float64Array, air: Float64Array}} absorption_area_m2
 * @property {Absorber_m2[]} [absorbers]  they sum up to all that is absorbed
 * @property {{t20_s: Float64Array, t30_s: Float64Array, edt_s: Float64Array, sabine_s: Float64Array, eyring_s: Float64Array,
 *   curve_step_s: Float64Array, curve_db: Float64Array[]}} decay
 * @property {{t20_s: number|null}} mid     mean over 250 Hz … 4 kHz
 * @property {Reflection[]} reflections
 * @property {SeatReport|null} [seat]     null without loudspeakers or seat
 * @property {FieldReport|null} [field]
 * @property {Flutter[]} [flutter]
 * @property {{known: number, unpriced: number, mass_kg: number, area_m2: number}} cost
 * @property {string[]} notes   what the model does not cover here
 *
 * What takes longer than a frame: it comes from workers, after the answer.
 *
 * @typedef {{low: Float64Array, high: Float64Array}} Span  8-in-10 range, 24 bands
 * @typedef {{from: string, to: string, mid_s: number|null, low_s: number, high_s: number}} Difference
 *   middle decay of the plan named `to` less that of `from`, from the same draws
 * @typedef {object} Ranges
 * @property {number} draws
 * @property {{low_s: Float64Array, high_s: Float64Array}} decay   of t20, 8-in-10 range
 * @property {{t20_s: number|null, low_s: number, high_s: number, goal_met: number}} mid  goal_met: share of the draws
 * @property {{direct_share: Span, early_share: Span, late_share: Span}|null} [seat]
 * @property {Difference[]} differences
 * @property {{t20_s: Float64Array, mid_s: number, factor: Float64Array, mid_factor: number}} [checked]  where they rest on a
 *   check-up: the middle of the draws, and that over the room as described
 *
 * @typedef {{frequency_hz: Float64Array, left_db: Float64Array, right_db: Float64Array, both_db: Float64Array}} Levels
 * @typedef {object} Mode
 * @property {[number, number, number]} n
 * @property {number} frequency_hz
 * @property {number} decay_s
 * @property {string} note    in words
 * @property {number} fed     how strongly the loudspeakers drive it, 0 … 1
 * @property {number} heard   how strongly it is heard at the seat, 0 … 1
 * @typedef {object} BassMap  Levels over the floor at ear height; y runs slower than x, one layer after the other.
 * @property {number[]|Float64Array} frequency_hz  middle of each layer's band
 * @property {number} nx
 * @property {number} ny
 * @property {number[]|Float64Array} x_m  nx places
 * @property {number[]|Float64Array} y_m
 * @property {number[]|Float64Array} level_db
 * @property {Float64Array} [unevenness_db]  how far the bands of one place lie apart, nx by ny
 * @typedef {object} Bass
 * @property {Levels & {third_octave: Levels}} response  re direct sound at 1 m on axis
 * @property {number} stops_at_hz  single notes are followed up to here
 * @property {Mode[]} modes
 * @property {string[]} words      what matters most, first
 * @property {BassMap} map
 * @property {{loudspeaker: number, distance_m: number, dip_hz: number}[]} behind
 * @property {[number, number][]} coincident  indices of modes
 * @property {string|null} thin    what thin pieces do down here
 * @property {number|null} [note_kept]  share of its ringing that the weightiest note keeps with the pieces; null without pieces
 * @property {{x_m: number, y_m: number, varies_db: number, from_db: number}|null} [evener]  a place nearby that is worth a move of the seat
 *
 * @typedef {{t20_s: Float64Array, low_s: Float64Array, high_s: Float64Array}} Predicted  with its 8-in-10 range
 * @typedef {object} CheckupEntry  One entry of `measured` beside what is predicted for its plan; a value for each of its bands.
 * @property {string} plan
 * @property {boolean} used
 * @property {string} sentence
 * @property {Float64Array} bands_hz
 * @property {Float64Array} measured_s
 * @property {boolean[]} counted   false where the room rings at single notes
 * @property {Predicted} before
 * @property {Predicted|null} after
 * @typedef {{low_s: number, high_s: number, goal_met: number}} Preview
 * @typedef {object} Surer  What makes a range wide.
 * @property {Preview} now
 * @property {{name: string, words: string, advice: string, share: number, goal_share: number, known: Preview}[]} inputs
 * @property {{plan: string, known: Preview}|null} measured
 * @typedef {object} CheckupReport
 * @property {boolean} used
 * @property {string} sentence
 * @property {CheckupEntry[]} entries
 * @property {{name: string, words: string, factor: number, low: number, high: number}[]} learnt
 * @property {{words: string, left: number}[]} causes
 * @typedef {{checkup: CheckupReport|null, surer: Surer}} Checkup
 *
 * @typedef {object} Late  What has come for one document; a plan that failed has null.
 * @property {Scenario} document
 * @property {Readonly<Record<number, Ranges|null>>} ranges  by plan
 * @property {Ranges|null} carried  of the room as it is, from a document before; good as long as the room is the same
 * @property {Readonly<Record<number, Ranges>>} [kept]  of the plan compared with, from a document before in which it was the same
 * @typedef {{document: Scenario, plan: number, bass: Bass|null}} LateBass
 * @typedef {{document: Scenario, plan: number, result: Checkup|null}} LateCheckup
 * @typedef {{ranges: boolean, bass: boolean, draws?: boolean}} Offers  what the core that is loaded can compute in a worker
 *
 * @typedef {object} Finding  One thing that is wrong with a document, ready to be shown.
 * @property {string} path      e.g. "plans[1].pieces[0].u_m"
 * @property {string} code
 * @property {string} message   a whole sentence
 *
 * @typedef {object} FinishInfo  A finish of the library; three rows of six octave values, 125 Hz … 4 kHz.
 * @property {string} id
 * @property {string} name
 * @property {number[]} typical
 * @property {number[]} low     lowest published value per octave
 * @property {number[]} high
 * @property {number} scattering
 * @property {string} source
 * @property {string} suits     "wall", "floor", "ceiling", "window", "door" or "opening", several separated by a space
 *
 * @typedef {object} FurnishingInfo
 * @property {string} id
 * @property {string} name
 * @property {number[]} absorption_area_m2  six octaves
 * @property {number} surface_m2
 * @property {number} spread    a factor either way
 * @property {string} source
 * @property {[number, number, number]} size_m  typical width, depth and height
 *
 * @typedef {object} KindInfo  What the core makes of one kind of the document's kit.
 * @property {string} id
 * @property {number} depth_m
 * @property {Float64Array} absorption  random incidence, 24 bands
 * @property {string} source
 *
 * @typedef {object} ShelfNote  What a buyer wants to know about one kind of the shelf.
 * @property {string} id
 * @property {string} good_for
 * @property {string} ask_for   what to ask the seller for
 * @property {string} source
 * @property {Float64Array} absorption  24 bands
 *
 * @typedef {object} Library
 * @property {number[]} bands_hz
 * @property {FinishInfo[]} finishes
 * @property {FurnishingInfo[]} furnishings
 * @property {Kind[]} shelf     the kinds that the Kit shelf offers
 * @property {ShelfNote[]} [shelf_notes]
 *
 * The state of the page. Only the reducer makes a new one; nothing in it is ever changed in place.
 *
 * @typedef {{label: string, document: Scenario, shown: number, mergeKey: string|null, at_ms: number,
 *   whose: Pick<State, "visiting"|"readOnly"|"example"|"home">}} HistoryEntry
 *   in the past, `document` is the one before the step named by `label`; in the future, the one after it
 *
 * @typedef {object} Guide  Why a piece holds where it holds.
 * @property {"u"|"v"} axis  the guide is the line of constant u (or v)
 * @property {number} at_m
 * @property {string} text   e.g. "centred on bounce mark"
 *
 * @typedef {object} Drag  A gesture under way; nothing of it is in the history yet.
 * @property {"move"|"resize"|"new"} kind
 * @property {number} index          the piece's index in the shown plan of `document`
 * @property {Scenario} document     what would be committed now; draw this one. The shown plan is always in it
 * @property {Scenario} base         what every move starts from: the state's own document, with plan "A" where a new
 *   piece needs one
 * @property {number} back           the plan to show again if the gesture is given up
 * @property {import("./laid.js").Laid|null} from  where it was (the ghost); null for a new piece
 * @property {string} kit            id of its kind
 * @property {boolean} over          false while a new piece is not over a surface (then `document` is `base`)
 * @property {boolean} legal         false: nothing legal is near; `document` is `base` and a drop changes nothing
 * @property {string|null} reason    why it may not go there, or what it slides along
 * @property {Rect|null} wanted      where the pointer wants it, when that is not where it is
 * @property {Guide[]} guides
 * @property {"pointer"|"keys"} by
 *
 * @typedef {object} Picked  Pick, then place: what was picked up, and the numbered places it may land on.
 * @property {string} kit
 * @property {Kind} kind
 * @property {number|null} index     an existing piece, or null for a new one
 * @property {(import("./laid.js").Laid & {why: string})[]} places
 *
 * @typedef {object} Notice  The status line.
 * @property {string} text
 * @property {"note"|"problem"} tone
 * @property {boolean} [undo]        offer undo beside it
 *
 * @typedef {object} Visiting  A document from a link while the reader's own draft is kept aside.
 * @property {Scenario} draft
 * @property {Home} home             which room the draft is
 * @property {string} link
 *
 * @typedef {Readonly<object>} Home  Stands for one room through all its changes: another room has another one.
 *
 * @typedef {object} State
 * @property {Scenario} document
 * @property {number} shown          index of the plan in hand; 0 is the room as it is
 * @property {number|null} compared  index of the plan that the one in hand is compared with; null: with today only
 * @property {number|null} selected  index of a piece in the shown plan
 * @property {number[]} together     further selected pieces of that plan, which go along with it
 * @property {{piece: import("./laid.js").Laid, kind: Kind}[]} copied  what Paste puts down
 * @property {boolean} mirrorLock    what moves on one side of the room moves on the other
 * @property {SurfaceName} surface   the surface in focus (narrow screens show only this one)
 * @property {{past: HistoryEntry[], future: HistoryEntry[]}} history
 * @property {Drag|null} drag
 * @property {Picked|null} picked
 * @property {"metric"|"imperial"} units
 * @property {boolean} snap
 * @property {Notice|null} notice
 * @property {Visiting|null} visiting
 * @property {{text: string, link: string}|null} readOnly  a document of a newer version: shown, not edited
 * @property {Home} home             which room is on the sheet; undo over the opening of a room brings back the one before
 * @property {boolean} example       the first-run example is on the sheet, untouched
 * @property {Answer|null} answer    what the core said last
 * @property {Late|null} late        ranges that came for a document; shown only with that document
 * @property {LateCheckup|null} checkup  what the check-up said last
 * @property {LateBass|null} bass    the bass that came last
 * @property {LateBass|null} otherBass  the bass that came last of the plan beside it
 * @property {import("./advice_types.js").Advice|null} advice  what came of the last question for advice
 * @property {import("./advice_types.js").Advice|null} step    the best step alone, worked out after a change
 * @property {StandsAt|null} spot    a loudspeaker or the seat is selected; a selected piece goes before it
 * @property {StandsAt|null} tapping the next tap on the floor says where this one stands, as long as it is selected
 * @property {Shows} shows
 *
 * @typedef {"soft"|"boards"|"bass"|"cloth"|"floor"|"scatter"|"stands"} ShelfGroup
 * @typedef {"seat"|number} StandsAt  the seat, or the index of a loudspeaker
 * @typedef {object} Shows  How much of it is drawn; never in the history.
 * @property {number} zone_hz    band of the areas round bounce marks
 * @property {boolean} second    marks of second bounces too
 * @property {number|null} layer  layer of the bass map; null: where the weightiest note lies
 * @property {string|null} [wrong_size]  why a typed size of the room is not taken: the figures are those of the last good one
 * @property {boolean} [checkup]  whether the check-up is open
 * @property {boolean} [thirds]   of the check-up: a field for each third of an octave
 * @property {ShelfGroup} [shelf]  group of the Kit shelf
 * @property {Lit|null} [lit]    the bounce that is pointed at, has the focus or was tapped
 * @property {string} [comb]     the bounce whose comb is drawn, as "left 0"
 * @property {boolean} [comb_raw]  its comb as it is, too
 * @property {"both"|"left"|"right"|"pair"} [response]  whose response is drawn
 * @property {boolean} [response_raw]  as it is, too
 * @property {Look} [look]       how the picture of the room is looked at
 *
 * @typedef {{from: "seat"|"door"|"free", turn_deg: number, tilt_deg: number, away: number}} Look
 *   turned and tilted from the way it starts; away: how far, beside where it starts
 * @typedef {{surface: SurfaceName, loudspeaker: number|null, by: "hover"|"focus"|"tap"}} Lit  loudspeaker null: all off this surface
 *
 * @typedef {object} Answer
 * @property {Scenario} document     what was computed (compare by reference to know whether it is up to date)
 * @property {PlanReport} now        the first plan
 * @property {PlanReport} shown      the plan in hand
 * @property {number} plan           its index
 * @property {number|null} [compared]  index of the plan that it is compared with
 * @property {PlanReport|null} [other]  the report of that plan
 * @property {{now: PlanReport, shown: PlanReport, other: PlanReport|null}} [described]  as predicted, where a check-up moved them
 * @property {KindInfo[]} kit
 * @property {boolean} [moving]      without what nobody reads while something is dragged
 */
export {};
