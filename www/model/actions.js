/**
 * Every action of the page by name. The reducer answers each; nothing else changes the state.
 *
 * @import { Answer, Bass, Checkup, Furnishing, Home, KeepClear, Kind, Looks, Loudspeaker, Measured, Part, Notice, Place3, Plan, Ranges, Scenario, Shows, StandsAt, SurfaceName } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { Told } from "./advice_types.js"
 *
 * Gestures. Positions are metres on the surface: where the piece's corner (u, v) is wanted, before snapping.
 * `tolerance_m` is the snap distance (ten CSS pixels at the drawing's scale), 0 to hold snapping off.
 * @typedef {{type: "drag-start", index: number, by: "pointer"|"keys"}} DragStart
 * @typedef {{type: "drag-new", kit: Kind, by: "pointer"|"keys"}} DragNew
 * @typedef {{type: "drag-move", surface: SurfaceName|null, u_m: number, v_m: number, tolerance_m: number}} DragMove
 *   surface null: the pointer is over no surface
 * @typedef {{type: "resize-start", index: number}} ResizeStart
 * @typedef {{type: "resize-move", u_m: number, v_m: number, corner: "--"|"+-"|"-+"|"++", tolerance_m: number}} ResizeMove
 *   the dragged corner (low or high u, low or high v) is wanted at (u, v)
 * @typedef {{type: "drag-end"}} DragEnd
 * @typedef {{type: "drag-cancel"}} DragCancel
 * @typedef {{type: "turn-piece", index: number}} TurnPiece
 *
 * Steps that are one entry of the history each (nudges of one item merge until a second of rest).
 * @typedef {{type: "set-piece", index: number, surface?: SurfaceName, u_m?: number, v_m?: number,
 *   width_m?: number, height_m?: number, edge?: string, x_m?: number, y_m?: number, z_m?: number, turn_deg?: number, open?: number}} SetPiece
 *   typed numbers: clamped to a legal place, never snapped
 * @typedef {{type: "nudge-piece", index: number, du_m: number, dv_m: number}} NudgePiece
 * @typedef {{type: "add-piece", piece: Laid, kit: Kind}} AddPiece
 * @typedef {{type: "remove-piece", index: number}} RemovePiece
 * @typedef {{type: "mirror-piece", index: number}} MirrorPiece
 * @typedef {{type: "duplicate-piece", index: number}} DuplicatePiece
 * @typedef {{type: "align-pieces", axis: "u"|"v", edge: "low"|"middle"|"high"}} AlignPieces  the selected ones, with the first
 * @typedef {{type: "spread-pieces", axis: "u"|"v"}} SpreadPieces
 * @typedef {{type: "remove-together"}} RemoveTogether     all that is selected
 * @typedef {{type: "paste-pieces", surface?: SurfaceName}} PastePieces
 * @typedef {{type: "set-kind", id: string, price?: number|null, price_per_m2?: number|null, name?: string, looks?: Looks|null, kind?: Kind}} SetKind
 *   one of the two prices takes the place of the other; price null: not set; looks null: plainly a panel; `kind` is the shelf's own, for one that the document does not use yet
 * @typedef {{type: "add-own-kind", name: string, values: readonly number[], width_m: number, height_m: number, depth_m: number, price?: number|null, looks?: Looks|null}} AddOwnKind
 *   six figures of a data sheet, 125 Hz to 4 kHz
 * @typedef {{type: "set-room", width_m?: number, length_m?: number, height_m?: number}} SetRoom
 * @typedef {{type: "set-finish", surface: SurfaceName, finish: string}} SetFinish
 * @typedef {{type: "set-furnishing", kind: string, count: number}} SetFurnishing
 * @typedef {{type: "place-furnishing", kind: string, size_m: readonly number[]}} PlaceFurnishing  width, depth and height
 * @typedef {{type: "move-furnishing", index: number, at: Partial<NonNullable<Furnishing["at"]>>|null, gesture?: string}} MoveFurnishing
 *   at null: it is only counted from now on
 * @typedef {{type: "remove-furnishing", index: number}} RemoveFurnishing
 * @typedef {{type: "set-part", surface: SurfaceName, index: number|null, part: Partial<Part>}} SetPart  index null: a new one
 * @typedef {{type: "remove-part", surface: SurfaceName, index: number}} RemovePart
 * @typedef {{type: "set-zone", index: number|null, zone: Partial<KeepClear>}} SetZone
 * @typedef {{type: "remove-zone", index: number}} RemoveZone
 * @typedef {{type: "set-air", key: "temperature_c"|"humidity_percent", value: number|null}} SetAir  null: as usual
 * @typedef {{type: "set-own-furnishing", id: string|null, name?: string, values?: readonly number[], surface_m2?: number}} SetOwnFurnishing
 *   id null: a new one; values in m² per octave
 * @typedef {{type: "remove-own-furnishing", id: string}} RemoveOwnFurnishing
 * @typedef {{type: "set-condition", condition: string, on: boolean}} SetCondition
 * @typedef {{type: "set-limit", limit: keyof NonNullable<Scenario["limits"]>, value: number|boolean|SurfaceName[]|Looks[]|null}} SetLimit
 * @typedef {{type: "set-own-finish", id: string|null, name?: string, values?: readonly number[], surface?: SurfaceName, part?: number|null}} SetOwnFinish
 *   id null: a new one, put on the surface or on one of its parts
 * @typedef {{type: "remove-own-finish", id: string}} RemoveOwnFinish
 * @typedef {{type: "move-loudspeaker", index: number, to: Partial<Place3>, gesture?: string}} MoveLoudspeaker
 * @typedef {{type: "move-seat", to: Partial<Place3>, gesture?: string}} MoveSeat
 *   moves of one `gesture` are one entry, however long it rests; without one, they merge as nudges do
 * @typedef {{type: "set-loudspeaker", index: number, directivity?: Loudspeaker["directivity"], toe_in_deg?: number}} SetLoudspeaker
 * @typedef {{type: "remove-spots", what: "loudspeakers"|"seat"}} RemoveSpots
 * @typedef {{type: "put-back-spots"}} PutBackSpots   loudspeakers and seat, whatever is missing
 * @typedef {{type: "cancel-gesture", gesture: string}} CancelGesture   takes the moves of that gesture back
 * @typedef {{type: "set-goal", goal: NonNullable<Scenario["goal"]>}} SetGoal
 * @typedef {{type: "set-title", title: string}} SetTitle
 * @typedef {{type: "add-plan"}} AddPlan            a copy of the shown plan
 * @typedef {{type: "remove-plan", index: number}} RemovePlan
 * @typedef {{type: "rename-plan", index: number, name: string}} RenamePlan
 * @typedef {{type: "move-plan", index: number, by: -1|1}} MovePlan   among the tabs; the room as it is stays first
 * @typedef {{type: "set-currency", sign: string}} SetCurrency   empty: none
 * @typedef {{type: "start-room", width_m: number, length_m: number, height_m: number}} StartRoom
 * @typedef {{type: "undo"}} Undo
 * @typedef {{type: "redo"}} Redo
 *
 * Documents that come from outside. `open-document` while a draft exists makes it a visit.
 * @typedef {{type: "open-document", document: Scenario, shown?: number, from: "link"|"file"|"example"|"room", link?: string, home?: Home}} OpenDocument
 *   home: of a room that was on the sheet before
 * @typedef {{type: "open-newer", document: Scenario, link: string}} OpenNewer
 * @typedef {{type: "keep-mine"}} KeepMine
 * @typedef {{type: "use-this"}} UseThis
 *
 * What is looked at; never in the history.
 * @typedef {{type: "show-plan", index: number}} ShowPlan
 * @typedef {{type: "compare", index: number|null}} Compare   the plan in hand with another one; null: with today only
 * @typedef {{type: "select", index: number|null}} Select
 * @typedef {{type: "select-also", index: number}} SelectAlso   in, or out again
 * @typedef {{type: "copy-pieces", index?: number}} CopyPieces  all that is selected, if that one is; never in the history
 * @typedef {{type: "set-mirror-lock", on: boolean}} SetMirrorLock
 * @typedef {{type: "face", surface: SurfaceName}} Face
 * @typedef {{type: "pick", kit: Kind, index: number|null}} Pick
 * @typedef {{type: "put-down"}} PutDown
 * @typedef {{type: "land", surface: SurfaceName, u_m: number, v_m: number, turn_deg?: number}} Land   places what was picked
 * @typedef {{type: "set-units", units: "metric"|"imperial"}} SetUnits
 * @typedef {{type: "set-snap", snap: boolean}} SetSnap
 * @typedef {{type: "notify", notice: Notice|null}} Notify
 * @typedef {{type: "select-spot", spot: StandsAt|null}} SelectSpot
 * @typedef {{type: "await-tap", spot: StandsAt|null}} AwaitTap  null: not any more
 * @typedef {{type: "show", shows: Partial<Shows>}} Show
 * @typedef {{type: "answered", answer: Answer}} Answered
 * @typedef {{type: "ranges-came", document: Scenario, plan: number, ranges: Ranges|null}} RangesCame  null: they could not be computed
 * @typedef {{type: "add-measured", entry: Measured}} AddMeasured
 * @typedef {{type: "set-measured", index: number, entry: Measured}} SetMeasured
 * @typedef {{type: "remove-measured", index: number}} RemoveMeasured
 * @typedef {{type: "checkup-came", document: Scenario, plan: number, result: Checkup|null}} CheckupCame  null: it could not be computed
 * @typedef {{type: "bass-came", document: Scenario, plan: number, bass: Bass|null}} BassCame
 * @typedef {{type: "advice-asked", plan: number, kit?: string|null}} AdviceAsked
 * @typedef {{type: "advice-covers", kit: string|null}} AdviceCovers  surfaces anew, with that kind
 * @typedef {{type: "advice-came", document: Scenario, told: Told}} AdviceCame
 * @typedef {{type: "advice-stopped"}} AdviceStopped
 * @typedef {{type: "step-asked", plan: number}} StepAsked  of the document as it is
 * @typedef {{type: "step-came", document: Scenario, told: Told}} StepCame
 *
 * @typedef {{type: "take-advice", plans: Omit<Plan, "name">[], slider?: boolean, kinds?: Kind[]}} TakeAdvice
 *   opens plans under the next free letters; slider: the one plan that follows the money
 *
 * @typedef {AdviceAsked|AdviceCovers|AdviceCame|AdviceStopped|StepAsked|StepCame|TakeAdvice|DragStart|DragNew|DragMove|ResizeStart|ResizeMove|DragEnd|DragCancel|TurnPiece|SetPiece|NudgePiece|AddPiece
 *   |RemovePiece|MirrorPiece|DuplicatePiece|AlignPieces|SpreadPieces|RemoveTogether|PastePieces|SelectAlso|CopyPieces|SetMirrorLock|SetKind|AddOwnKind|SetRoom|SetFinish|SetFurnishing
 *   |PlaceFurnishing|MoveFurnishing|RemoveFurnishing|SetPart|RemovePart|SetZone|RemoveZone|SetAir|SetOwnFurnishing|RemoveOwnFurnishing|SetCondition|SetLimit|SetOwnFinish|RemoveOwnFinish|MoveLoudspeaker|MoveSeat|SetLoudspeaker|RemoveSpots|PutBackSpots|CancelGesture|SetGoal
 *   |SetTitle|AddPlan|RemovePlan|RenamePlan|MovePlan|SetCurrency|StartRoom|Undo|Redo|OpenDocument|OpenNewer|KeepMine|UseThis|ShowPlan|Compare|Select
 *   |Face|Pick|PutDown|Land|SetUnits|SetSnap|Notify|SelectSpot|AwaitTap|Show|Answered|RangesCame|BassCame|AddMeasured|SetMeasured|RemoveMeasured|CheckupCame} Action
 * @typedef {(action: Action) => void} Dispatch
 */
export {};
