/**
 * What plays: the browser's sound device, the graph, and the responses of the plans that are heard, as the document changes.
 *
 * @import { ListenerClient } from "../../engine/listener.js"
 * @import { HeardLevel } from "../../model/listen.js"
 * @import { Scenario } from "../../model/types.js"
 * @import { Graph, Room } from "./graph.js"
 */
import { LEVEL_DB, matchedGains, stillChosen } from "../../model/listen.js";
import { createGraph } from "./graph.js";

/** Everything is rendered to this; the device's own rate is the browser's affair. */
const RATE_HZ = 48000;

/** Of an own sound as much as this is heard, s. */
export const MOST_OWN_S = 30;

/** So long a device may take to begin, ms. */
const BEGIN_WITHIN_MS = 1500;

/**
 * @param {ListenerClient} listener
 * @param {{chosen: number, level_db: number}} first
 */
export function createPlayer(listener, first) {
  /** @type {AudioContext|null} */
  let context = null;
  /** @type {Graph|null} */
  let graph = null;
  /** @type {AudioBuffer|null} */
  let sound = null;
  /** What the graph has, with the sound whose peaks its gains are for. @type {{plans: number[], rooms: Room[], levels: HeardLevel[], sound: AudioBuffer|null}} */
  let heard = { plans: [], rooms: [], levels: [], sound: null };
  let { chosen, level_db } = first;
  let playing = false;

  /** Starts the device; throws a sentence where there is none or the browser does not let the page. */
  async function begin() {
    if (typeof AudioContext !== "function") throw new Error("This browser cannot play sound from a page.");
    context ??= new AudioContext({ sampleRate: RATE_HZ, latencyHint: "playback" });
    await Promise.race([context.resume(), new Promise((resolve) => setTimeout(resolve, BEGIN_WITHIN_MS))]);
    if (context.state !== "running") throw new Error("No sound can be played: the browser blocks it for this page, or there is no headphone or loudspeaker connected. Connect one, allow sound in the browser's site settings, and press Play again.");
    return context;
  }
  /** @param {Scenario} document @param {number[]} plans */
  async function render(document, plans) {
    const sent = sound;
    if (!sent) return;
    const { findings } = await listener.open(document);
    if (findings.length > 0) throw new Error(findings[0].message);
    const [left, right] = [sent.getChannelData(0), sent.getChannelData(1)];
    const responses = await Promise.all(plans.map((plan) => listener.response(plan)));
    const levels = await Promise.all(plans.map((plan) => listener.level(plan, left, right)));
    const gains = matchedGains(levels);
    const rooms = responses.map((series, index) => ({ response: responseOf(plans[index], series), gain: gains[index] }));
    take({ plans, rooms, levels, sound: sent });
  }
  /** The response of a plan; the one that is there, if nothing has changed. @param {number} plan @param {Float32Array<ArrayBuffer>} series */
  function responseOf(plan, series) {
    const known = heard.rooms[heard.plans.indexOf(plan)]?.response;
    return known && isSame(known, series) ? known : responseBuffer(series);
  }
  /** What stays plays on, at the same place of the sound. @param {typeof heard} next */
  function take(next) {
    chosen = stillChosen(heard.plans, next.plans, chosen);
    graph?.arrange(next.rooms, chosen);
    if (playing && next.sound && next.sound !== heard.sound) graph?.play(next.sound);
    heard = next;
  }
  return {
    begin,
    render,
    /** Heard from the next rendering on, which finds its level. @param {AudioBuffer} next two channels */
    setSound(next) {
      sound = next;
    },
    play() {
      if (!context || !heard.sound) return;
      graph ??= createGraph(context, heard.rooms, { chosen, level_db });
      graph.play(heard.sound);
      playing = true;
    },
    stop() {
      graph?.stop();
      playing = false;
    },
    /** @param {number} index among the plans that are heard */
    choose(index) {
      chosen = index;
      graph?.choose(index);
    },
    /** @param {number} next_db */
    setLevel(next_db) {
      level_db = next_db;
      graph?.setLevel(next_db);
    },
    isPlaying: () => playing,
    levels: () => heard.levels,
    /** One round of the sound in a plan, with its tail, at the top of the slider: whole peaks, as loud as every other plan. @param {number} index */
    async saved(index) {
      const { sound, rooms } = heard;
      if (!sound || !rooms[index]) throw new Error("There is nothing to save yet.");
      const length = sound.length + rooms[index].response.length;
      const offline = new OfflineAudioContext(2, length, RATE_HZ);
      const once = createGraph(offline, [rooms[index]], { chosen: 0, level_db: LEVEL_DB.most });
      const silence = new AudioBuffer({ numberOfChannels: 2, length, sampleRate: RATE_HZ });
      for (const channel of [0, 1]) silence.copyToChannel(sound.getChannelData(channel), channel);
      once.play(silence, 0);
      const rendered = await offline.startRendering();
      return listener.wav(rendered.getChannelData(0), rendered.getChannelData(1), RATE_HZ);
    },
  };
}

/** @param {AudioBuffer} response @param {Float32Array} series its channels, one after the other */
function isSame(response, series) {
  const { length, numberOfChannels } = response;
  if (series.length !== length * numberOfChannels) return false;
  return Array.from({ length: numberOfChannels }, (_, channel) => response.getChannelData(channel))
    .every((samples, channel) => samples.every((sample, n) => sample === series[channel * length + n]));
}

/** Four series, one after the other, as the convolver takes them. @param {Float32Array<ArrayBuffer>} series @returns {AudioBuffer} */
export function responseBuffer(series) {
  const ways = 4;
  const length = series.length / ways;
  const buffer = new AudioBuffer({ numberOfChannels: ways, length, sampleRate: RATE_HZ });
  for (let way = 0; way < ways; way += 1) buffer.copyToChannel(series.subarray(way * length, (way + 1) * length), way);
  return buffer;
}

/** The same sound on both loudspeakers. @param {Float32Array<ArrayBuffer>} samples @returns {AudioBuffer} */
export function onBoth(samples) {
  const buffer = new AudioBuffer({ numberOfChannels: 2, length: samples.length, sampleRate: RATE_HZ });
  for (const channel of [0, 1]) buffer.copyToChannel(samples, channel);
  return buffer;
}

/**
 * A sound of the listener's own, which stays on this machine: two channels, at most half a minute.
 * @param {File} file @returns {Promise<AudioBuffer>} rejects with a sentence
 */
export async function ownSound(file) {
  const offline = new OfflineAudioContext(2, 1, RATE_HZ);
  const whole = await offline.decodeAudioData(await file.arrayBuffer()).catch(() => {
    throw new Error(`${file.name} is no sound that this browser can play.`);
  });
  const length = Math.min(whole.length, MOST_OWN_S * RATE_HZ);
  if (length === 0) throw new Error(`${file.name} holds no sound.`);
  const buffer = new AudioBuffer({ numberOfChannels: 2, length, sampleRate: RATE_HZ });
  for (const channel of [0, 1]) {
    const from = whole.getChannelData(Math.min(channel, whole.numberOfChannels - 1));
    buffer.copyToChannel(from.subarray(0, length), channel);
  }
  return buffer;
}
