/**
 * What the core answers to "What should I do?", task by task.
 *
 * @import { Kind, Listening, Piece, Scenario, SurfaceName } from "./types.js"
 *
 * @typedef {{decay: number, evenness: number, bounces: number, likeness: number, effort: number}} Steps  fewer are better
 * @typedef {"decay"|"evenness"|"bounces"|"likeness"} Purpose
 * @typedef {"best"|"verdict"|"free"|"amount"|"windows"|"other"|"unlimited"|{surface: SurfaceName}|{level: number}} Task
 *
 * @typedef {object} Objective
 * @property {{decay: number, evenness: number, tilt: number, bounces: number, likeness: number, piece: number, lone: number, money: number}} weights
 * @property {Figures} figures
 * @property {[number, number]} goal_s
 * @property {number|null} budget
 *
 * @typedef {object} Figures       What a step is, what is allowed before anything counts, from where on advice acts or stops.
 * @property {number} step_ratio
 * @property {number} step_db
 * @property {number} bass_step_db
 * @property {number} inside
 * @property {number} even
 * @property {number} even_low
 * @property {number} tilt
 * @property {number} quiet_db
 * @property {number} alike_db
 * @property {number} faint_db
 * @property {number} counts_until_s
 * @property {number} counts_not_from_s
 * @property {number} worth_a_move
 * @property {number} stop_below
 * @property {number} worth_it
 * @property {number} not_worth_it
 * @property {number} most_of_it
 * @property {number} less_money
 * @property {number} nearly_all
 * @property {number} near_the_best
 * @property {number} seat_times_more
 * @property {number} seat_at_least_db
 *
 * @typedef {object} About
 * @property {Task[]} tasks
 * @property {Objective} objective
 * @property {boolean} is_priced  plans are made of kinds with a price; if not, the ladder counts pieces
 * @property {number} top          what the ladder of money leads up to
 * @property {Kind[]} stand_ins    kinds of the shelf, where the document has none of its own
 *
 * @typedef {object} PlanAdvice
 * @property {Piece[]} pieces      all of it
 * @property {{piece: number, purpose: Purpose, steps: number, mark: [number, SurfaceName]|null}[]} reasons  of each new piece
 * @property {number[]} removed    of the plan that it starts from
 * @property {number} price        of all pieces that are not owned, as far as it is known
 * @property {Steps} before
 * @property {Steps} after
 * @property {[number|null, number|null]} middle_s
 * @property {[number, number]|null} bounces_db
 *
 * @typedef {object} Bite          One step of the best order.
 * @property {Piece[]} pieces
 * @property {number} price        up to here
 * @property {number} gained       up to here, in sound
 * @property {number|null} middle_s
 * @property {number|null} bounces_db
 *
 * @typedef {{pieces: number, price: number, gained: number, bare_s: number|null, bare_bounces_db: number|null}} Today
 *   what the pieces that are there do already, beside the same room without them
 *
 * @typedef {{share: number, pieces: number, area_m2: number, price: number, middle_s: number|null, bounces_db: number|null,
 *   gained: number, evenness_gained: number, range_s: [number, number]|null, shows_too_many: boolean}} Cover
 * @typedef {object} SurfaceAdvice
 * @property {SurfaceName} surface
 * @property {string|null} kit
 * @property {string|null} rule
 * @property {number} free_m2      for that kind
 * @property {Cover[]} covers
 * @property {number|null} middle_s
 * @property {number|null} bounces_db
 * @property {number} absorption
 * @property {number|null} carries
 * @property {"lingers"|"soft-already"|"pair-is-soft"|"hard-and-near"|"hard"} why
 *
 * @typedef {object} FreeMove
 * @property {"seat"|"loudspeakers"|"pieces"} what
 * @property {number} back_m
 * @property {Listening|null} listening
 * @property {number[]} removed
 * @property {[number, number]|null} bass_db
 * @property {Steps} before
 * @property {Steps} after
 * @property {number} gained
 * @property {number|null} beside_best  what it adds to the best plan; null where that cannot be, or is in it already
 *
 * @typedef {{pieces: number, area_m2: number, share: number, price: number, middle_s: number|null, met: number|null}} Count
 *   share: of walls and ceiling; met: how often the goal is
 * @typedef {object} Amount         How many of a kind are needed.
 * @property {string|null} kit
 * @property {number|null} middle_s
 * @property {Count|null} most      all that fit, or those with which it is too short already
 * @property {Count|null} middle    in the goal at the middle estimate
 * @property {Count|null} sure      8 times in 10
 * @property {Count|null} surest    where no number is
 * @property {[Count, "decay"|"treble"]|null} too_many
 *
 * @typedef {object} WindowWay
 * @property {"curtain"|"stand"|"turn"|"swap"|"accept"} what
 * @property {Piece|null} piece
 * @property {Kind|null} kind       of the shelf, where the document has none of its sort
 * @property {Listening|null} listening
 * @property {number|null} turned_deg
 * @property {SurfaceName|null} wall    that is behind the loudspeakers then, where that is another one
 * @property {SurfaceName|null} lands   whose bounce takes the place of this one then
 * @property {[SurfaceName, string][]} barred  why no other wall may be behind them
 * @property {string|null} rule
 * @property {number} level_db
 * @property {number} gained
 * @property {number} price
 * @typedef {{loudspeaker: number, surface: SurfaceName, delay_s: number, level_db: number, ways: WindowWay[]}} WindowBounce
 *
 * @typedef {{together_hz: number|null, now_db: number, plan_db: number, seat_db: number, seat_back_m: number}} Boom
 * @typedef {{kit: string, surface: SurfaceName, loudspeaker: number|null, rule: string, moved: boolean}} Refusal
 *
 * @typedef {object} Found          By the name of its task; only what has come.
 * @property {{plan: PlanAdvice, order: Bite[], today: Today, refusals: Refusal[]}} [best]
 * @property {{mid: {t20_s: number|null, low_s: number|null, high_s: number|null, goal_met: number|null}}} [verdict]
 * @property {{free: {moves: FreeMove[], boom: Boom|null}}} [free]
 * @property {{amount: Amount}} [amount]
 * @property {{bounces: WindowBounce[]}} [windows]
 * @property {{plan: PlanAdvice|null}} [other]
 * @property {{plan: PlanAdvice}} [unlimited]
 * @property {Partial<Record<SurfaceName, SurfaceAdvice>>} surfaces
 * @property {Record<number, {budget: number, plan: PlanAdvice}>} levels
 *
 * @typedef {object} Advice         What came of one question.
 * @property {Scenario} document    as it was asked about
 * @property {number} plan          and which plan of it
 * @property {string|null} kit      the kind that surfaces are covered with; null: what does most on each
 * @property {About|null} about
 * @property {Found} found
 * @property {Record<number, number>} progress  of each task begun, 0 to 1
 * @property {"working"|"done"|"stopped"|"failed"} status
 *
 * @typedef {{about: About}|{task: number, progress: number}|{task: number, found: any, whole: boolean}|{status: "done"|"failed"}} Told
 *   whole: false for a plan while a better one is looked for
 */
export {};
