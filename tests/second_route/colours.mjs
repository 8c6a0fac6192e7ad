// A second route to ICtCp, its colour difference, CIELUV and transfer functions: a general-purpose colour library from npm.
//
// Run by hand, never by the tests (they read the two tables that it wrote):
//   cd "$(mktemp -d)" && npm init -y && npm install colorjs.io@0.7.1
//   cp .../tests/second_route/colours.mjs . && node colours.mjs colours > second_route_colours.csv
//   node colours.mjs transfer > second_route_transfer.csv
// and move the tables to tests/data/.
//
// What it does otherwise than samelight:
// - X, Y, Z go to L, M, S by one matrix with 16 decimals, not through BT.2020's primaries.
// - It knows ICtCp of PQ only, and takes no L, M or S below 0.
// - Its scene light for HLG is scaled by 3.7743, which is put in here, and its constant c is rounded to 0.55991073.
// - Its light relative to white takes 203 cd/m2 for 1, which is put in here too.
import Color from "colorjs.io";

const white = 203;
const hlgScale = 3.7743;

// X, Y, Z in cd/m2: greys, saturated lights of BT.709 and BT.2020, dark and bright ones, one outside BT.2020.
const lights = [
  [0.0095, 0.01, 0.0109], [0.095, 0.1, 0.109], [0.95, 1, 1.09], [9.5, 10, 10.9], [95.04, 100, 108.88],
  [192.94, 203, 221.08], [950.5, 1000, 1089], [3802, 4000, 4356], [41.24, 21.26, 1.93], [35.76, 71.52, 11.92],
  [18.05, 7.22, 95.05], [63.7, 26.27, 0.01], [14.46, 67.8, 2.81], [16.89, 5.93, 106.1], [53.81, 78.74, 106.97],
  [77, 92.78, 13.85], [59.29, 28.48, 96.98], [36.2, 30.4, 20.5], [400, 350, 40], [0.3, 0.1, 1.2],
  [12, 40, 60], [600, 500, 900],
];

const number = (x) => {
  if (!Number.isFinite(x)) throw new Error("the library gave no number");
  return String(Number(x.toPrecision(15)));
};

function colours() {
  console.log("# A general-purpose colour library from npm, run by tests/second_route/colours.mjs: 15 digits. X, Y, Z in cd/m2;");
  console.log("# CIELUV relative to the white (0.3127, 0.3290) of 203 cd/m2; dE_ITP to the row before (first row: to the last).");
  console.log("X,Y,Z,I,Ct,Cp,dE_ITP,L,u,v");
  const all = lights.map((xyz) => new Color("xyz-abs-d65", xyz));
  all.forEach((light, i) => {
    const before = all[(i + all.length - 1) % all.length];
    const row = [...lights[i], ...light.to("ictcp").coords, light.deltaE(before, "ITP"), ...light.to("luv").coords];
    console.log(row.map(number).join(","));
  });
}

function transfer() {
  console.log("# The same library. x taken as: sRGB signal, sRGB light, PQ signal (of 10000 x cd/m2), PQ light (of signal x), HLG signal, HLG light.");
  console.log("x,srgb_light,srgb_signal,pq_signal,pq_cd_m2,hlg_signal,hlg_light");
  for (let i = 0; i <= 20; ++i) {
    const x = i / 20;
    const of = (from, to, value) => new Color(from, [value, value, value]).to(to).coords[0];
    const row = [
      x,
      of("srgb", "srgb-linear", x),
      of("srgb-linear", "srgb", x),
      of("rec2100-linear", "rec2100pq", (10000 * x) / white),
      of("rec2100pq", "rec2100-linear", x) * white,
      of("rec2100-linear", "rec2100hlg", x * hlgScale),
      of("rec2100hlg", "rec2100-linear", x) / hlgScale,
    ];
    console.log(row.map(number).join(","));
  }
}

const what = { colours, transfer }[process.argv[2]];
if (!what) throw new Error("usage: node colours.mjs colours | transfer");
what();
