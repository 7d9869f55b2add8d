import type { Case, Reading } from "./case";

/** One of a pair on either side of the datum: their CG is there, so each has half of what is told. */
const half =
  (name: string, by = 1): Reading =>
  of =>
    (of(name) / 2) * by;

/** 1 slug ft², in kg m². */
const SLUG_FT2 = 14.593902937206364 * 0.3048 ** 2;

export const inertias: Readonly<Record<string, Case>> = {
  "IN-cuboid": {
    spec: "part box weighed 12 kg at FS 0, WL 0 shape box 2 m, 3 m, 4 m",
    reads: { Ix: "parts Ixx", Iy: "parts Iyy", Iz: "parts Izz" },
  },
  "IN-cyl": {
    spec: "part rod weighed 10 kg at FS 0, WL 0 shape cylinder 1 m, 2 m along FS",
    reads: { axial: "parts Ixx", transverse: "parts Iyy" },
  },
  "IN-motor": {
    spec: "part motor weighed 0.054 kg at FS 0, WL 0 shape cylinder 32 mm, 19.3 mm along FS",
    reads: { axial: "parts Ixx", transverse: "parts Iyy" },
  },
  "IN-sphere": {
    spec: "part ball weighed 5 kg at FS 0, WL 0 shape sphere 0.6 m",
    reads: { solid: "parts Ixx" },
  },
  // two rods end to end turn about the end of each
  "IN-rod": {
    spec: `assembly one { part rod weighed 3 kg span FS 0, WL 0 .. FS 2 m, WL 0 }
part other weighed 3 kg span FS -2 m, WL 0 .. FS 0, WL 0`,
    reads: { centre: "one Iyy", end: half("parts Iyy") },
  },
  "IN-parallel": {
    spec: `part a weighed 2 kg at FS 1 m, BL 2 m, WL 3 m inertia Ixx 1 kg m^2, Iyy 2 kg m^2, Izz 3 kg m^2
part b weighed 2 kg at FS -1 m, BL -2 m, WL -3 m inertia Ixx 1 kg m^2, Iyy 2 kg m^2, Izz 3 kg m^2`,
    // printed as entries of the tensor, whose sign is the other one
    reads: {
      Ixx: half("parts Ixx"),
      Iyy: half("parts Iyy"),
      Izz: half("parts Izz"),
      Ixy: half("parts Ixy", -1),
      Ixz: half("parts Ixz", -1),
      Iyz: half("parts Iyz", -1),
    },
  },
  "CAD-CYL-1": {
    spec: `let m = 0.0646744778512064 kg
part a weighed m at FS 50 mm, WL 0 inertia Ixx 20.546523091867165 kg mm^2, Iyy 77.40871831435453 kg mm^2, Izz 77.40870798983086 kg mm^2
part b weighed m at FS -50 mm, WL 0 inertia Ixx 20.546523091867165 kg mm^2, Iyy 77.40871831435453 kg mm^2, Izz 77.40870798983086 kg mm^2`,
    reads: {
      Ixx: half("parts Ixx", 1e6),
      Iyy: half("parts Iyy", 1e6),
      Izz: half("parts Izz", 1e6),
      Ixz: half("parts Ixz", 1e6),
    },
  },
  // no body has 1, 3 and 5: ten more about every axis stay ten more. Axes turned one way see the body turned the other
  "IN-rot-junglas": {
    spec: `assembly outer swing -45 deg about WL at FS 0, BL 0 {
  assembly inner swing -30 deg about FS at BL 0, WL 0 {
    part body weighed 9 kg at FS 0, WL 0 inertia Ixx 11 kg m^2, Iyy 13 kg m^2, Izz 15 kg m^2
  }
}
configuration turned { swing outer, outer.inner }`,
    reads: {
      Jxx: of => of("turned Ixx") - 10,
      Jyy: of => of("turned Iyy") - 10,
      Jzz: of => of("turned Izz") - 10,
      Jxy: of => -of("turned Ixy"),
      Jxz: of => -of("turned Ixz"),
      Jyz: of => -of("turned Iyz"),
    },
  },
  // the moment in pitch stands beside the others in the same source
  "PRIN-F16": {
    spec: `part aircraft weighed 20000 lb at FS 300, WL 90 inertia Ixx 9496 slug ft^2, Iyy 55814 slug ft^2, Izz 63100 slug ft^2, Ixz 982 slug ft^2`,
    reads: {
      I1: of => of("principal 1") / SLUG_FT2,
      I3: of => of("principal 3") / SLUG_FT2,
      angle_deg: of => (Math.abs(Math.atan2(of("axis 1 WL"), of("axis 1 FS"))) * 180) / Math.PI,
    },
  },
};
