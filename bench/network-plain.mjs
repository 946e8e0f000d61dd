// The reference network solved the plain way: an object an element, its law a closure, everything computed anew for
// every solve. A tree eliminated child by child and the line search along r·d it has too: only the handling is plain.

/** Root of the short bearing's load equation, by Newton on its logarithm inside a bracket. */
function eccentricity(wanted) {
  let low = 0;
  let high = 1;
  let e = wanted < 1 ? wanted / 4 : 1 - 1 / (2 + Math.sqrt(wanted));
  for (let i = 0; i < 60; i++) {
    const q = 1 - e * e;
    const root = 16 * e * e + Math.PI ** 2 * q;
    const miss = Math.log(((e / (q * q)) * Math.sqrt(root)) / wanted);
    if (miss > 0) high = e;
    else low = e;
    const next = e - miss / (1 / e + (4 * e) / q + (e * (16 - Math.PI ** 2)) / root);
    const inside = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(inside - e) < 1e-12) return inside;
    e = inside;
  }
  return e;
}

const linear = (g) => (d) => [g * d, g];

const jet = (k, smoothing) => (d) => {
  const sum = Math.abs(d) + smoothing;
  return [(k * d) / Math.sqrt(sum), (k * (sum - Math.abs(d) / 2)) / sum ** 1.5];
};

function passage({ bore: d, length, minor_loss: K = 0 }, mu, rho) {
  const area = (Math.PI / 4) * d * d;
  const a = (128 * mu * length) / (Math.PI * d ** 4);
  const b = (K * rho) / (2 * area * area);
  const t = (0.3164 * ((rho * d) / (mu * area)) ** -0.25 * length * rho) / (2 * d * area * area);
  const crossing = ((64 / 0.3164) ** (4 / 3) * mu * area) / (rho * d);
  return (difference) => {
    const size = Math.abs(difference);
    let q = (2 * size) / (a + Math.sqrt(a * a + 4 * b * size));
    let slope = a + 2 * b * q;
    if (q > crossing) {
      for (let i = 0; i < 40; i++) {
        const step = (t * q ** 1.75 + b * q * q - size) / (1.75 * t * q ** 0.75 + 2 * b * q);
        q -= step;
        if (step < 1e-10 * q) break;
      }
      slope = 1.75 * t * q ** 0.75 + 2 * b * q;
    }
    return [difference < 0 ? -q : q, 1 / slope];
  };
}

function lawOf(e, { mu, rho, omega, smoothing, preloadShare }) {
  const orifice = (area) => jet(e.discharge_coefficient * area * Math.sqrt(2 / rho), smoothing);
  const journal = (length, lands) => {
    if (e.eccentricity_ratio !== undefined) return e.eccentricity_ratio;
    const krpm = (omega * 30) / Math.PI / 1000;
    const load = (e.load + e.load_per_krpm2 * krpm * krpm) / lands;
    return eccentricity((4 * load * e.radial_clearance ** 2) / (mu * omega * (e.diameter / 2) * length ** 3));
  };
  switch (e.law) {
    case 'gear-pump': {
      const flow = (e.displacement * e.speed_ratio * omega) / (2 * Math.PI);
      return () => [flow, 0];
    }
    case 'slot':
      return linear((e.width * e.gap ** 3) / (12 * mu * e.length));
    case 'laminar-leak':
      return linear(e.strength / mu);
    case 'filter':
      return linear((e.flow * e.dynamic_viscosity) / (e.pressure_drop * mu));
    case 'groove-bearing': {
      const ecc = journal(e.land_length, 2);
      return linear(
        (Math.PI * e.diameter * e.radial_clearance ** 3 * (1 + 1.5 * ecc * ecc)) / (6 * mu * e.land_length),
      );
    }
    case 'hole-bearing-with-side-flow': {
      const ecc = journal(e.length, 1);
      const c = e.radial_clearance;
      const pressed =
        (0.675 * (e.hole_diameter / e.length + 0.4) ** 1.75 * c ** 3 * (1 + 1.5 * ecc * ecc)) / mu;
      const drawn = (e.side_flow_factor * ecc * c * omega * e.diameter * e.length) / 2;
      const half = e.side_flow_pressure;
      return (d) => {
        const sum = Math.abs(d) + half;
        return [pressed * d + (drawn * d) / sum, pressed + (drawn * half) / sum ** 2];
      };
    }
    case 'orifice':
      return orifice((Math.PI / 4) * e.diameter ** 2);
    case 'spring-valve': {
      const hole = orifice(e.area ?? (Math.PI / 4) * e.diameter ** 2);
      return (d) => {
        const u = (d - e.opening_pressure) / e.opening_range;
        if (u <= 0) return [0, 0];
        const [flow, slope] = hole(d);
        if (u >= 1) return [flow, slope];
        const s = u * u * (3 - 2 * u);
        return [s * flow, s * slope + ((6 * u * (1 - u)) / e.opening_range) * flow];
      };
    }
    case 'relief-valve': {
      const cracking = e.cracking_pressure * preloadShare;
      const perPascal = (e.port_width * e.plunger_area) / e.spring_rate;
      const fullest = e.port_width * e.maximum_lift;
      const hole = orifice(1);
      return (d) => {
        if (d <= cracking) return [0, 0];
        const [flow, slope] = hole(d);
        const opened = perPascal * (d - cracking);
        return opened < fullest
          ? [opened * flow, opened * slope + perPascal * flow]
          : [fullest * flow, fullest * slope];
      };
    }
    case 'passage':
      return passage(e, mu, rho);
    default:
      throw new Error(`no plain way for ${e.law}`);
  }
}

/** Parents before children, from the pump outwards; the sump is −1. */
export function plainNetwork(file) {
  const neighbours = new Map();
  const near = (node) => neighbours.get(node) ?? neighbours.set(node, new Set()).get(node);
  for (const { from, to } of file.elements)
    if (from !== undefined && to !== undefined) {
      near(from).add(to);
      near(to).add(from);
    }
  const order = [file.elements.find(({ law }) => law === 'gear-pump').to];
  const parent = [-1];
  for (let i = 0; i < order.length; i++)
    for (const next of near(order[i]))
      if (!order.includes(next)) {
        order.push(next);
        parent.push(i);
      }
  const at = (node) => (node === undefined ? -1 : order.indexOf(node));
  const ends = file.elements.map(({ from, to }) => [at(from), at(to)]);
  return { file, order, parent, ends };
}

/** @param elements as in the file, some with other values @returns pressures in the order of the network, or undefined */
export function plainSolved(
  { file, order, parent, ends },
  elements,
  { rpm, celsius, share, preloadShare },
  start,
) {
  const { a, b, c } = file.fluid.vogel;
  const omega = (rpm * Math.PI) / 30;
  const mu = share * a * Math.exp(b / (celsius + c));
  const rho = file.fluid.density15 * (1 - file.fluid.density_coefficient * (celsius - 15));
  const conditions = { mu, rho, omega, smoothing: file.smoothing_pressure, preloadShare };
  const branches = elements.map((e, i) => ({
    ends: ends[i],
    law: lawOf(e, conditions),
    head:
      e.inner_radius === undefined ? 0 : 0.5 * rho * omega ** 2 * (e.outer_radius ** 2 - e.inner_radius ** 2),
  }));
  const n = order.length;
  const balanceAt = (p) => {
    const r = new Array(n).fill(0);
    const diagonal = new Array(n).fill(0);
    const coupling = new Array(n).fill(0);
    for (const {
      ends: [from, to],
      law,
      head,
    } of branches) {
      const [flow, slope] = law((from < 0 ? 0 : p[from]) - (to < 0 ? 0 : p[to]) + head);
      if (from >= 0) {
        r[from] += flow;
        diagonal[from] += slope;
      }
      if (to >= 0) {
        r[to] -= flow;
        diagonal[to] += slope;
      }
      if (from >= 0 && to >= 0) coupling[Math.max(from, to)] -= slope;
    }
    return { r, diagonal, coupling };
  };
  let p = start.slice();
  let now = balanceAt(p);
  for (let iteration = 0; iteration < 200; iteration++) {
    const d = now.r.map((x) => -x);
    for (let i = n - 1; i > 0; i--) {
      const m = now.coupling[i] / now.diagonal[i];
      now.diagonal[parent[i]] -= m * now.coupling[i];
      d[parent[i]] -= m * d[i];
    }
    for (let i = 0; i < n; i++)
      d[i] = (d[i] - (i > 0 ? now.coupling[i] * d[parent[i]] : 0)) / now.diagonal[i];
    const along = (r) => r.reduce((sum, x, i) => sum + x * d[i], 0);
    const slope0 = along(now.r);
    if (Math.max(...d.map(Math.abs)) < 0.1) return p.map((x, i) => x + d[i]);
    let [low, high, slopeLow, slopeHigh, t] = [0, 1, slope0, 0, 1];
    for (let k = 0; k < 60; k++) {
      const trial = p.map((x, i) => x + t * d[i]);
      const there = balanceAt(trial);
      const slope = along(there.r);
      if (slope <= Math.abs(slope0) / 2 && (t === 1 || -slope <= Math.abs(slope0) / 2)) {
        p = trial;
        now = there;
        break;
      }
      if (slope > 0) [high, slopeHigh, slopeLow] = [t, slope, k > 0 ? slopeLow / 2 : slopeLow];
      else [low, slopeLow, slopeHigh] = [t, slope, slopeHigh / 2];
      t = (low * slopeHigh - high * slopeLow) / (slopeHigh - slopeLow);
    }
  }
  return undefined;
}
