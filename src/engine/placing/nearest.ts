/*
 * Nearest points of the cores of rounded boxes (rectangles, possibly without width), with what an energy needs of
 * them. The result goes to an array the caller owns:
 * out = [distance, nx, ny, x, y]: distance negative where the cores overlap, the unit normal from the first to the
 * second, and one point on the line of contact. A push along the normal through that point has the right torque on
 * both, because turning the pair as one body changes nothing.
 */

/** From a box's core (b) to a point (p). */
export function coreToPoint(
  out: Float64Array,
  bx: number,
  by: number,
  bc: number,
  bs: number,
  hx: number,
  hy: number,
  px: number,
  py: number,
): void {
  const dx = px - bx;
  const dy = py - by;
  const u = bc * dx + bs * dy;
  const v = bc * dy - bs * dx;
  const outU = (u < 0 ? -u : u) - hx;
  const outV = (v < 0 ? -v : v) - hy;
  let nu = 0;
  let nv = 0;
  let distance = 0;
  if (outU > 0 || outV > 0) {
    if (outU > 0) nu = u < 0 ? -outU : outU;
    if (outV > 0) nv = v < 0 ? -outV : outV;
    distance = Math.sqrt(nu * nu + nv * nv);
    nu /= distance;
    nv /= distance;
  } else if (outU > outV) {
    distance = outU;
    nu = u < 0 ? -1 : 1;
  } else {
    distance = outV;
    nv = v < 0 ? -1 : 1;
  }
  out[0] = distance;
  out[1] = bc * nu - bs * nv;
  out[2] = bs * nu + bc * nv;
  out[3] = px;
  out[4] = py;
}

/** From a box's core (a) to another's (b). */
export function coreToCore(
  out: Float64Array,
  ax: number,
  ay: number,
  ac: number,
  as: number,
  ahx: number,
  ahy: number,
  bx: number,
  by: number,
  bc: number,
  bs: number,
  bhx: number,
  bhy: number,
): void {
  const dx = bx - ax;
  const dy = by - ay;
  // Cosine and sine of b's turn seen from a.
  const c = ac * bc + as * bs;
  const s = ac * bs - as * bc;
  const absC = c < 0 ? -c : c;
  const absS = s < 0 ? -s : s;
  const u = ac * dx + as * dy;
  const v = ac * dy - as * dx;
  const p = bc * dx + bs * dy;
  const q = bc * dy - bs * dx;
  // Separation along each of the four face normals.
  const sepU = (u < 0 ? -u : u) - ahx - bhx * absC - bhy * absS;
  const sepV = (v < 0 ? -v : v) - ahy - bhx * absS - bhy * absC;
  const sepP = (p < 0 ? -p : p) - bhx - ahx * absC - ahy * absS;
  const sepQ = (q < 0 ? -q : q) - bhy - ahx * absS - ahy * absC;
  const sepA = sepU > sepV ? sepU : sepV;
  const sepB = sepP > sepQ ? sepP : sepQ;
  if (sepA <= 0 && sepB <= 0) {
    if (sepA >= sepB) {
      // A face of a is the axis: the contact is b's corner deepest in a.
      const alongU = sepU > sepV;
      const sign = (alongU ? u : v) < 0 ? -1 : 1;
      const nx = sign * (alongU ? ac : -as);
      const ny = sign * (alongU ? as : ac);
      const cornerX = bc * nx + bs * ny > 0 ? -bhx : bhx;
      const cornerY = bc * ny - bs * nx > 0 ? -bhy : bhy;
      out[0] = sepA;
      out[1] = nx;
      out[2] = ny;
      out[3] = bx + bc * cornerX - bs * cornerY;
      out[4] = by + bs * cornerX + bc * cornerY;
    } else {
      const alongP = sepP > sepQ;
      const sign = (alongP ? p : q) < 0 ? -1 : 1;
      const nx = sign * (alongP ? bc : -bs);
      const ny = sign * (alongP ? bs : bc);
      const cornerX = ac * nx + as * ny > 0 ? ahx : -ahx;
      const cornerY = ac * ny - as * nx > 0 ? ahy : -ahy;
      out[0] = sepB;
      out[1] = nx;
      out[2] = ny;
      out[3] = ax + ac * cornerX - as * cornerY;
      out[4] = ay + as * cornerX + ac * cornerY;
    }
    return;
  }
  // Apart: the nearest pair always includes a corner of one of them.
  let least = Infinity;
  let cx = 0;
  let cy = 0;
  let ofB = true;
  for (let k = 0; k < 4; k++) {
    const cornerX = k & 1 ? bhx : -bhx;
    const cornerY = k & 2 ? bhy : -bhy;
    const x = u + c * cornerX - s * cornerY;
    const y = v + s * cornerX + c * cornerY;
    const outX = (x < 0 ? -x : x) - ahx;
    const outY = (y < 0 ? -y : y) - ahy;
    const square = (outX > 0 ? outX * outX : 0) + (outY > 0 ? outY * outY : 0);
    if (square < least) {
      least = square;
      cx = bx + bc * cornerX - bs * cornerY;
      cy = by + bs * cornerX + bc * cornerY;
    }
  }
  for (let k = 0; k < 4; k++) {
    const cornerX = k & 1 ? ahx : -ahx;
    const cornerY = k & 2 ? ahy : -ahy;
    const x = c * cornerX + s * cornerY - p;
    const y = c * cornerY - s * cornerX - q;
    const outX = (x < 0 ? -x : x) - bhx;
    const outY = (y < 0 ? -y : y) - bhy;
    const square = (outX > 0 ? outX * outX : 0) + (outY > 0 ? outY * outY : 0);
    if (square < least) {
      least = square;
      cx = ax + ac * cornerX - as * cornerY;
      cy = ay + as * cornerX + ac * cornerY;
      ofB = false;
    }
  }
  if (ofB) {
    coreToPoint(out, ax, ay, ac, as, ahx, ahy, cx, cy);
  } else {
    coreToPoint(out, bx, by, bc, bs, bhx, bhy, cx, cy);
    out[1] = -out[1];
    out[2] = -out[2];
  }
}
