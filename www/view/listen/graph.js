/**
 * The audio graph: one sound, once round and again, through the rooms of all plans at the same time; the switch fades from one
 * to the other, so that nothing stops and the place in the sound stays. It knows no page: the same graph runs offline.
 *
 * @typedef {object} Room
 * @property {AudioBuffer} response  four series: left to left ear, left to right, right to left, right to right
 * @property {number} gain           brings it to the loudness of the others
 *
 * @typedef {object} Graph
 * @property {(sound: AudioBuffer, at_s?: number) => void} play        from its start, over and over; after a fade of what was there
 * @property {() => void} stop                                        fades out
 * @property {(room: number, at_s?: number) => void} choose
 * @property {(rooms: Room[], room: number, at_s?: number) => void} arrange  other rooms; the sound goes on, and so does a room that stays
 * @property {(level_db: number, at_s?: number) => void} setLevel
 */
import { LIMITED_TO, limiterCurve } from "../../model/listen.js";

/** Length of the fade of a switch, s: too short to hear as a fade, too long to hear as a step. */
export const FADE_S = 0.05;

/** After this a fade has left less than −60 dB, s. */
const END_S = 2 * FADE_S;

/**
 * @param {BaseAudioContext} context
 * @param {Room[]} rooms
 * @param {{chosen: number, level_db: number}} first
 * @returns {Graph}
 */
export function createGraph(context, rooms, { chosen, level_db }) {
  const input = new GainNode(context, { channelCount: 2, channelCountMode: "explicit" });
  const output = new GainNode(context, { gain: factor(level_db) });
  addLimiter(context, output);
  let paths = rooms.map((room, index) => path(context, input, output, room, index === chosen ? room.gain : 0));
  /** @type {{node: AudioBufferSourceNode, fader: GainNode}|null} */
  let source = null;

  /** @param {number} at_s */
  function endSource(at_s) {
    if (!source) return;
    fade(source.fader.gain, 0, at_s);
    source.node.stop(at_s + END_S);
    source = null;
  }
  /** @param {number} index @param {number} at_s */
  function choose(index, at_s) {
    paths.forEach((one, number) => fade(one.fader.gain, number === index ? one.gain : 0, at_s));
  }
  return {
    play(sound, at_s = context.currentTime) {
      const start_s = source ? at_s + END_S : at_s;
      endSource(at_s);
      source = { node: new AudioBufferSourceNode(context, { buffer: sound, loop: true }), fader: new GainNode(context) };
      source.node.connect(source.fader).connect(input);
      source.node.start(start_s);
    },
    stop: () => endSource(context.currentTime),
    choose: (index, at_s = context.currentTime) => choose(index, at_s),
    arrange(next, index, at_s = context.currentTime) {
      const before = paths;
      paths = next.map((room) => {
        const kept = before.find(({ response }) => response === room.response);
        if (!kept) return path(context, input, output, room, 0);
        kept.gain = room.gain;
        return kept;
      });
      const gone = before.filter((one) => !paths.includes(one));
      gone.forEach(({ fader }) => fade(fader.gain, 0, at_s));
      setTimeout(() => gone.forEach((one) => one.leave()), 1000 * (at_s - context.currentTime + END_S));
      choose(index, at_s);
    },
    setLevel(next_db, at_s = context.currentTime) {
      fade(output.gain, factor(next_db), at_s);
    },
  };
}

/** @param {BaseAudioContext} context @param {AudioNode} input @param {AudioNode} output @param {Room} room @param {number} gain */
function path(context, input, output, room, gain) {
  const convolver = new ConvolverNode(context, { buffer: room.response, disableNormalization: true });
  const fader = new GainNode(context, { gain });
  input.connect(convolver).connect(fader).connect(output);
  return {
    fader,
    response: room.response,
    gain: room.gain,
    leave() {
      input.disconnect(convolver);
      convolver.disconnect();
      fader.disconnect();
    },
  };
}

/** @param {BaseAudioContext} context @param {AudioNode} output */
function addLimiter(context, output) {
  const down = new GainNode(context, { gain: 1 / LIMITED_TO });
  const limiter = new WaveShaperNode(context, { curve: limiterCurve() });
  output.connect(down).connect(limiter).connect(context.destination);
}

/**
 * From what it is at that time towards a value, ever more slowly: no step, and no jump where fades meet.
 * @param {AudioParam} parameter @param {number} to @param {number} at_s
 */
function fade(parameter, to, at_s) {
  parameter.cancelScheduledValues(at_s);
  parameter.setTargetAtTime(to, at_s, FADE_S / 5);
}

/** @param {number} level_db @returns {number} */
function factor(level_db) {
  return 10 ** (level_db / 20);
}
