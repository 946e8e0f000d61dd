/*
 * The reference network of an invented six-cylinder engine (conformance/networks) in plain C: numbers written out,
 * nothing read, nothing allocated. The balance is a strictly convex function's gradient; Newton, a tree eliminated child
 * by child, a line search along r.d.
 *
 * Commands, a line each; every answer is a line of numbers:
 *   p RPM CELSIUS           pressures of all nodes from cold
 *   m TIMES STEP            TIMES maps of 40 speeds x 30 temperatures, main 1 wider by STEP % each: seconds, then the last map
 *   t TIMES TRIALS          TIMES runs of TRIALS trials at 12 points: seconds, lost, then mean and deviation by point
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { P, F, G, M = G + 7, R = M + 7, H = R + 6, N = H + 7, GAUGE = G + 3 };
static const double PI = 3.14159265358979323846, SMOOTH = 500;

typedef struct {
  double main[7], rod[6], cam[7], end, tip, viscosity, preload;
} Engine;

static Engine as_drawn(void) {
  Engine e;
  for (int i = 0; i < 7; i++) e.main[i] = 30e-6, e.cam[i] = 35e-6;
  for (int i = 0; i < 6; i++) e.rod[i] = 28e-6;
  e.end = 70e-6, e.tip = 80e-6, e.viscosity = 1, e.preload = 1;
  return e;
}

/* Each node but P and F hangs on its parent by a passage. */
static int parent[N];
static double bore[N], length[N], minor[N];

static void hang(int node, int from, double b, double l, double k) {
  parent[node] = from, bore[node] = b, length[node] = l, minor[node] = k;
}

static void build(void) {
  parent[P] = -1, parent[F] = P;
  hang(G, F, 0.012, 0.30, 2);
  for (int i = 1; i < 7; i++) hang(G + i, G + i - 1, 0.012, 0.11, 0.3);
  for (int i = 0; i < 7; i++) hang(M + i, G + i, 0.006, 0.045, 1.5);
  for (int i = 0; i < 6; i++) hang(R + i, M + i, 0.005, 0.075, 2);
  hang(H, G + 6, 0.007, 0.40, 75);
  for (int i = 1; i < 7; i++) hang(H + i, H + i - 1, 0.009, 0.11, 0.3);
}

/* Root of the short bearing's load equation, by Newton on its logarithm inside a bracket. */
static double eccentricity(double wanted) {
  double low = 0, high = 1, e = wanted < 1 ? wanted / 4 : 1 - 1 / (2 + sqrt(wanted));
  for (int i = 0; i < 60; i++) {
    double q = 1 - e * e, root = 16 * e * e + PI * PI * q;
    double miss = log(e / (q * q) * sqrt(root) / wanted);
    if (miss > 0) high = e; else low = e;
    double next = e - miss / (1 / e + 4 * e / q + e * (16 - PI * PI) / root);
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (fabs(next - e) < 1e-12) return next;
    e = next;
  }
  return e;
}

/* What speed, oil and clearances make of the laws; set once a solve. */
static double ground[N], delivery, filter, jet, head;
static double linear[N], square[N], turbulent[N], crossing[N], drawn[6], cracking;

static void conditions(const Engine *e, double rpm, double celsius) {
  double w = rpm * PI / 30, k2 = rpm * rpm / 1e6;
  double mu = e->viscosity * 1.464e-4 * exp(856 / (celsius + 95)), rho = 870 * (1 - 6.5e-4 * (celsius - 15));
  memset(ground, 0, sizeof ground);
  delivery = 18e-6 * 0.5 * rpm / 60;
  ground[P] = (0.100 * pow(e->end, 3) / 0.008 + 0.060 * pow(e->tip, 3) / 0.006) / (12 * mu);
  filter = 1 / (6.0e9 * mu), jet = 0.65 * sqrt(2 / rho), cracking = 4.0e5 * e->preload;
  head = 0.5 * rho * w * w * (0.055 * 0.055 - 0.032 * 0.032);
  for (int i = 0; i < 7; i++) {
    double c = e->main[i], ecc = eccentricity(4 * ((1500 + 90 * k2) / 2) * c * c / (mu * w * 0.032 * pow(0.009, 3)));
    ground[M + i] = PI * 0.064 * c * c * c * (1 + 1.5 * ecc * ecc) / (6 * mu * 0.009);
    c = e->cam[i];
    ground[H + i] = PI * 0.030 * c * c * c * (1 + 1.5 * 0.25) / (6 * mu * 0.008) + (i < 6 ? 6e-14 / mu : 0);
  }
  double hole = 0.675 * pow(0.006 / 0.020 + 0.4, 1.75);
  for (int i = 0; i < 6; i++) {
    double c = e->rod[i], ecc = eccentricity(4 * (2500 + 160 * k2) * c * c / (mu * w * 0.026 * pow(0.020, 3)));
    ground[R + i] = hole * c * c * c * (1 + 1.5 * ecc * ecc) / mu;
    drawn[i] = 0.33 * ecc * c * w * 0.026 * 0.020;
  }
  for (int i = G; i < N; i++) {
    double d = bore[i], a = PI / 4 * d * d;
    linear[i] = 128 * mu * length[i] / (PI * d * d * d * d);
    square[i] = minor[i] * rho / (2 * a * a);
    turbulent[i] = 0.3164 * pow(rho * d / (mu * a), -0.25) * length[i] * rho / (2 * d * a * a);
    crossing[i] = pow(64 / 0.3164, 4.0 / 3) * mu * a / (rho * d);
  }
}

static double orifice(double area, double d, double *slope) {
  double size = fabs(d), sum = size + SMOOTH, part = area * jet / sqrt(sum);
  *slope = part * (sum - 0.5 * size) / sum;
  return part * d;
}

static double valve(double area, double opens, double range, double d, double *slope) {
  double u = (d - opens) / range, flow, s;
  *slope = 0;
  if (u <= 0) return 0;
  flow = orifice(area, d, slope);
  if (u >= 1) return flow;
  s = u * u * (3 - 2 * u);
  *slope = s * *slope + 6 * u * (1 - u) / range * flow;
  return s * flow;
}

static double passage(int i, double d, double *slope) {
  double size = fabs(d), loss = sqrt(linear[i] * linear[i] + 4 * square[i] * size), q = 2 * size / (linear[i] + loss);
  if (q > crossing[i]) {
    for (int k = 0; k < 40; k++) {
      double part = turbulent[i] * sqrt(q * sqrt(q));
      double step = (part * q + square[i] * q * q - size) / (1.75 * part + 2 * square[i] * q);
      q -= step;
      if (step < 1e-10 * q) break;
    }
    loss = 1.75 * turbulent[i] * sqrt(q * sqrt(q)) + 2 * square[i] * q;
  }
  *slope = 1 / loss;
  return d < 0 ? -q : q;
}

static void balance(const double *p, double *r, double *diagonal, double *coupling) {
  double flow, slope, more;
  for (int i = 0; i < N; i++) r[i] = ground[i] * p[i], diagonal[i] = ground[i];
  r[P] -= delivery;
  if (p[P] > cracking) {
    double opened = 0.012 * 1.5394e-4 / 4000 * (p[P] - cracking), full = 0.012 * 8e-3;
    flow = orifice(1, p[P], &slope);
    diagonal[P] += opened < full ? opened * slope + 0.012 * 1.5394e-4 / 4000 * flow : full * slope;
    r[P] += (opened < full ? opened : full) * flow;
  }
  flow = filter * (p[P] - p[F]) + valve(5.0e-5, 1.0e5, 0.6e5, p[P] - p[F], &more);
  slope = filter + more;
  r[P] += flow, r[F] -= flow, diagonal[P] += slope, diagonal[F] += slope, coupling[F] = -slope;
  for (int i = G; i < N; i++) {
    int from = parent[i];
    flow = passage(i, p[from] - p[i] + (i >= R && i < H ? head : 0), &slope);
    r[from] += flow, r[i] -= flow, diagonal[from] += slope, diagonal[i] += slope, coupling[i] = -slope;
  }
  for (int i = 0; i < 6; i++) {
    double sum = fabs(p[R + i]) + 2e4, share = drawn[i] / sum;
    r[R + i] += share * p[R + i], diagonal[R + i] += share * 2e4 / sum;
    r[G + i] += valve(PI / 4 * 0.0013 * 0.0013, 1.5e5, 0.6e5, p[G + i], &slope), diagonal[G + i] += slope;
  }
  r[G] += orifice(PI / 4 * 0.001 * 0.001, p[G], &slope), diagonal[G] += slope;
}

static double along(const double *r, const double *d) {
  double sum = 0;
  for (int i = 0; i < N; i++) sum += r[i] * d[i];
  return sum;
}

/* p: start and answer. Steps taken, 0 where no balance was found. */
static int solve(double *p) {
  double r[N], diagonal[N], coupling[N], d[N], there[N];
  balance(p, r, diagonal, coupling);
  for (int step = 1; step <= 200; step++) {
    double most = 0;
    for (int i = 0; i < N; i++) d[i] = -r[i];
    for (int i = N - 1; i > 0; i--) {
      double m = coupling[i] / diagonal[i];
      diagonal[parent[i]] -= m * coupling[i];
      d[parent[i]] -= m * d[i];
    }
    for (int i = 0; i < N; i++) {
      d[i] = (d[i] - (i > 0 ? coupling[i] * d[parent[i]] : 0)) / diagonal[i];
      if (fabs(d[i]) > most) most = fabs(d[i]);
    }
    if (most < 0.1) {
      for (int i = 0; i < N; i++) p[i] += d[i];
      return step;
    }
    double first = along(r, d), low = 0, high = 1, at_low = first, at_high = 0, t = 1;
    for (int k = 0; k < 60; k++) {
      for (int i = 0; i < N; i++) there[i] = p[i] + t * d[i];
      balance(there, r, diagonal, coupling);
      double slope = along(r, d);
      if (slope <= fabs(first) / 2 && (t == 1 || -slope <= fabs(first) / 2)) break;
      if (slope > 0) high = t, at_high = slope, at_low = k > 0 ? at_low / 2 : at_low;
      else low = t, at_low = slope, at_high /= 2;
      t = (low * at_high - high * at_low) / (at_high - at_low);
    }
    memcpy(p, there, sizeof there);
  }
  return 0;
}

static void cold(double *p) { for (int i = 0; i < N; i++) p[i] = 3e5; }

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec + 1e-9 * t.tv_nsec;
}

static double map[30][40];

static int mapped(const Engine *e) {
  double p[N];
  int lost = 0;
  for (int j = 0; j < 30; j++) {
    cold(p);
    for (int i = 0; i < 40; i++) {
      conditions(e, 600 + i * (6500.0 - 600) / 39, j * 145.0 / 29);
      lost += solve(p) == 0;
      map[j][i] = p[GAUGE];
    }
  }
  return lost;
}

static uint32_t seed = 1;
static double uniform(void) { return ((seed = seed * 1664525u + 1013904223u) + 0.5) / 4294967296.0; }
static double normal(void) { double a = uniform(); return sqrt(-2 * log(a)) * cos(2 * PI * uniform()); }

static const double RPM[4] = {700, 1500, 3000, 5500}, CELSIUS[3] = {60, 90, 120};
static double mean[12], deviation[12];

static int tried(int trials) {
  double near[12][N], p[N], sum[12] = {0}, squares[12] = {0}, base[12];
  int lost = 0;
  Engine middle = as_drawn();
  for (int k = 0; k < 12; k++) {
    cold(near[k]);
    conditions(&middle, RPM[k / 3], CELSIUS[k % 3]);
    lost += solve(near[k]) == 0;
    base[k] = near[k][GAUGE];
  }
  for (int n = 0; n < trials; n++) {
    Engine e = middle;
    for (int i = 0; i < 7; i++) e.main[i] += 2.5e-6 * normal(), e.cam[i] += 4e-6 * normal();
    for (int i = 0; i < 6; i++) e.rod[i] += 2.5e-6 * normal();
    e.end += 6e-6 * normal(), e.tip += 6e-6 * normal();
    e.viscosity += 0.03 * normal(), e.preload += 0.02 * normal();
    for (int k = 0; k < 12; k++) {
      memcpy(p, near[k], sizeof p);
      conditions(&e, RPM[k / 3], CELSIUS[k % 3]);
      lost += solve(p) == 0;
      sum[k] += p[GAUGE] - base[k], squares[k] += (p[GAUGE] - base[k]) * (p[GAUGE] - base[k]);
    }
  }
  for (int k = 0; k < 12; k++) {
    double shift = sum[k] / trials;
    mean[k] = base[k] + shift, deviation[k] = sqrt((squares[k] - trials * shift * shift) / (trials - 1));
  }
  return lost;
}

int main(void) {
  char what;
  double a, b;
  build();
  while (scanf(" %c %lf %lf", &what, &a, &b) == 3) {
    int lost = 0;
    double start = now(), p[N];
    Engine e = as_drawn();
    if (what == 'p') {
      cold(p);
      conditions(&e, a, b);
      lost = solve(p) == 0;
      for (int i = 0; i < N; i++) printf("%.9g ", p[i]);
    } else if (what == 'm') {
      for (int i = 0; i < a; i++) e.main[0] = 30e-6 * (1 + b / 100 * (i % 9)), lost += mapped(&e);
      printf("%.9g %d", now() - start, lost);
      for (int j = 0; j < 30; j++) for (int i = 0; i < 40; i++) printf(" %.9g", map[j][i]);
    } else {
      for (int i = 0; i < a; i++) lost += tried((int)b);
      printf("%.9g %d", now() - start, lost);
      for (int k = 0; k < 12; k++) printf(" %.9g %.9g", mean[k], deviation[k]);
    }
    printf("\n");
    fflush(stdout);
  }
  return 0;
}
