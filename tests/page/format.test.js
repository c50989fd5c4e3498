import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { area, count, decibels, depth, frequency, length, mass, milliseconds, money, number, seconds, secondsRange, size, volume } from "../../www/model/format.js";

const T = "\u202f";

describe("numbers as text", () => {
  const cases = [
    [number(-1.25, 1), "\u22121.3"], [number(-0.001, 2), "0.00"], [count(1300), `1${T}300`], [count(1234567), `1${T}234${T}567`],
    [length(1.3, "metric"), `1.30${T}m`], [length(94.5 * 0.0254, "imperial"), "7' 10 1/2\""], [length(3.048, "imperial"), "10'"],
    [length(0.0254 * 0.125, "imperial"), "1/8\""], [length(0, "imperial"), "0\""], [length(0.0254 * 11.99, "imperial"), "1'"],
    [length(-0.3048, "imperial"), "\u22121'"], [depth(0.15, "metric"), `150${T}mm`], [depth(0.0508, "imperial"), "2\""],
    [size({ width_m: 0.6, height_m: 1.2 }, "metric"), `0.60 × 1.20${T}m`],
    [area(7.2, "metric"), `7.2${T}m²`], [area(7.2, "imperial"), `78${T}ft²`], [volume(32.659, "metric"), `32.7${T}m³`],
    [volume(36.81, "imperial"), `1${T}300${T}ft³`], [seconds(0.4449), `0.44${T}s`], [secondsRange(0.3, 0.5), `0.30–0.50${T}s`],
    [milliseconds(0.00202), `2.0${T}ms`], [decibels(-1.8), `\u22122${T}dB`], [decibels(-0.2), `0${T}dB`], [frequency(63), `63${T}Hz`],
    [frequency(1250), `1.25${T}kHz`], [frequency(10000), `10${T}kHz`], [mass(5, "metric"), `5${T}kg`], [mass(2.5, "metric"), `2.5${T}kg`],
    [mass(5, "imperial"), `11${T}lb`], [money(1450), `1${T}450`], [money(12.5), "12.50"],
  ];
  for (const [shown, expected] of cases) it(`writes ${expected}`, () => assert.equal(shown, expected));

  it("writes the imperial sides of a basement to the eighth", () => {
    assert.deepEqual([3.404, 5.131, 2.108].map((side) => length(side, "imperial")), ["11' 2\"", "16' 10\"", "6' 11\""]);
  });
});
