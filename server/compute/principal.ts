import type { Inertia } from "./inertia";
import type { Row } from "./turn";

/** A principal axis: its moment (kg m²) and its direction, of length one (aft, right, up). */
export interface Principal {
  readonly moment: number;
  readonly axis: Row;
}

/**
 * Principal moments, smallest first, with their axes. Jacobi's rotations (1846; Golub and Van Loan, Matrix
 * Computations, section 8.5; from memory): exact to rounding for three by three, and at once, where the
 * library that could do it takes longer to load than everything else takes to compute.
 */
export function principalOf({ Ixx, Iyy, Izz, Ixy, Ixz, Iyz }: Inertia): readonly Principal[] {
  const a = [
    [Ixx, -Ixy, -Ixz],
    [-Ixy, Iyy, -Iyz],
    [-Ixz, -Iyz, Izz],
  ];
  const v = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const size = Math.max(...a.flat().map(Math.abs));
  for (let sweep = 0; sweep < 50; sweep++) {
    const off = Math.max(Math.abs(a[0]![1]!), Math.abs(a[0]![2]!), Math.abs(a[1]![2]!));
    if (off <= 1e-17 * size) break;
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const)
      rotate(a, v, p, q);
  }
  return [0, 1, 2]
    .map(i => ({
      moment: a[i]![i]!,
      axis: toward([v[0]![i]!, v[1]![i]!, v[2]![i]!]),
    }))
    .sort((one, other) => one.moment - other.moment);
}

function rotate(a: number[][], v: number[][], p: number, q: number): void {
  const apq = a[p]![q]!;
  if (apq === 0) return;
  const theta = (a[q]![q]! - a[p]![p]!) / (2 * apq);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(1, theta));
  const c = 1 / Math.hypot(1, t);
  const s = t * c;
  for (let k = 0; k < 3; k++) {
    const [kp, kq] = [a[k]![p]!, a[k]![q]!];
    a[k]![p] = c * kp - s * kq;
    a[k]![q] = s * kp + c * kq;
  }
  for (let k = 0; k < 3; k++) {
    const [pk, qk] = [a[p]![k]!, a[q]![k]!];
    a[p]![k] = c * pk - s * qk;
    a[q]![k] = s * pk + c * qk;
    const [vp, vq] = [v[k]![p]!, v[k]![q]!];
    v[k]![p] = c * vp - s * vq;
    v[k]![q] = s * vp + c * vq;
  }
}

/** An axis has no sign: its largest part points aft, right or up. */
function toward(axis: Row): Row {
  const largest = axis.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  return largest < 0 ? [-axis[0], -axis[1], -axis[2]] : axis;
}
