/**
 * What one drawing of the page is made from: the state and the few things round it, gathered once per frame.
 *
 * @import { KindInfo, Library, Listening, Offers, Plan, PlanReport, Scenario, State } from "../model/types.js"
 * @import { Fold } from "./fold.js"
 * @import { Dispatch } from "../model/actions.js"
 *
 * @typedef {"wide"|"middle"|"narrow"} Width
 * @typedef {{width: Width, content_px: number}} Viewport
 *
 * @typedef {object} Commands  What reaches outside of the page.
 * @property {() => void} copyLink
 * @property {() => void} saveFile
 * @property {(file: File) => void} openFile
 * @property {(name: string) => void} openExample
 * @property {() => void} forgetDraft  every room that this browser keeps
 * @property {() => import("./kept.js").KeptRoom[]} rooms  all but the one on the sheet
 * @property {(id: string) => void} openRoom
 * @property {(id: string) => void} forgetRoom
 * @property {() => void} openSheet    the Hang sheet as a preview on the page
 * @property {() => void} printFigures the page itself on paper: drawings and tables
 * @property {(plan: number) => void} askAdvice  on a plan of the document
 * @property {(kit: string|null) => void} coverWith  surfaces of the advice that was asked for; null: with what does most on each
 * @property {() => void} stopAdvice
 * @property {(text: string, what: string) => void} copyText  `what` was copied, as the first word of a sentence
 * @property {(text: string, name: string, type: string) => void} saveText
 * @property {import("./listen/region.js").ListenPort & import("./listen/recording.js").RecordingPort} listening  what Fair listen rests on
 *
 * @typedef {object} Scene
 * @property {State} state
 * @property {Dispatch} dispatch
 * @property {Library} library
 * @property {Offers} offers        what comes later, from workers
 * @property {Commands} commands
 * @property {Viewport} viewport
 * @property {Scenario} document     the one to draw: that of the gesture under way, if there is one
 * @property {Plan} plan             the plan in hand
 * @property {Listening} listening   of the plan in hand
 * @property {PlanReport|null} now   the report of the room as it is
 * @property {PlanReport|null} shown the report of the plan in hand
 * @property {KindInfo[]} kit
 * @property {Fold} fold             where the surfaces lie
 */
import { foldFor } from "./columns.js";

/**
 * @param {State} state
 * @param {Omit<Scene, "state"|"document"|"plan"|"listening"|"now"|"shown"|"kit"|"fold">} around
 * @returns {Scene}
 */
export function makeScene(state, around) {
  const document = state.drag?.document ?? state.document;
  const plan = document.plans[state.shown] ?? document.plans[0];
  const answer = state.answer;
  return {
    ...around,
    state,
    document,
    plan,
    listening: plan.listening ?? document.listening,
    now: answer?.now ?? null,
    shown: answer && answer.plan === state.shown ? answer.shown : null,
    kit: answer?.kit ?? [],
    fold: foldFor(document.room, state.surface, around.viewport),
  };
}

/**
 * @param {Scene} scene
 * @returns {boolean}
 */
export function isReadOnly(scene) {
  return scene.state.readOnly !== null;
}
