/* The engine's inner loop in C, the same arithmetic in the same order, as the yardstick for tests/bench/engine.ts.
 * Reads sizes and arrays from a file, runs the loop several times, prints nanoseconds per field, course and hour. */
#include <stdio.h>
#include <stdlib.h>
#include <math.h>
#include <time.h>

typedef struct { double mature, at_maturity, factor, exchange, offset; double start_wb, start_mm; int member; } course;
typedef struct { double filling, youngest, ripe, green; } traits;
typedef struct { double rew, tew, per_second, flooded, keep, ratio; } soil;

static inline double step_grain(double wb, double since, const traits *t, float dry_target, float wet_target,
                                float dry_rate, float wet_rate, float green, const course *p) {
  if (since <= 0) {
    double most = fmax(t->youngest, p->at_maturity);
    return fmin(most, p->at_maturity + (-since * t->filling) / 24.0);
  }
  double dry = dry_target + p->offset;
  if (wb > dry) {
    double x = dry_rate / p->exchange, s = x + 0.5 * x * x;
    double loss = ((wb - dry) * s) / (1 + s);
    if (wb > t->ripe) {
      double share = fmin(1, (wb - t->ripe) / (t->green - t->ripe));
      double g = green * p->factor;
      loss = (loss * g) / (g + share * loss);
    }
    return wb - loss;
  }
  double wet = wet_target + p->offset;
  if (wb < wet) {
    double x = wet_rate / p->exchange, s = x + 0.5 * x * x;
    return wb + ((wet - wb) * s) / (1 + s);
  }
  return dry >= wet ? wb : NAN;
}

static inline double step_topsoil(double mm, float rain, float et, const soil *s) {
  mm = fmax(mm - rain, s->flooded);
  if (mm < 0) mm *= s->keep;
  double demand = et < 0 ? 0 : et * s->ratio, room = s->rew - mm;
  if (demand <= room) return mm + demand;
  double from = room > 0 ? s->rew : mm;
  if (from >= s->tew) return from;
  double x = (room > 0 ? demand - room : demand) * s->per_second;
  return s->tew - (s->tew - from) / (1 + x * (1 + x * (0.5 + x * (1.0 / 6))));
}

int main(int argc, char **argv) {
  if (argc < 3) return 2;
  FILE *f = fopen(argv[1], "rb");
  int n[3];
  double start;
  traits t;
  soil s;
  if (!f || fread(n, sizeof n, 1, f) != 1) return 2;
  int hours = n[0], members = n[1], fields = n[2], size = hours * members;
  if (fread(&start, sizeof start, 1, f) != 1 || fread(&t, sizeof t, 1, f) != 1 || fread(&s, sizeof s, 1, f) != 1) return 2;
  course *courses = malloc(members * sizeof *courses);
  for (int c = 0; c < members; c++) {
    double v[7];
    if (fread(v, sizeof v, 1, f) != 1) return 2;
    courses[c] = (course){v[0], v[1], v[2], v[3], v[4], v[5], v[6], c};
  }
  float *in[7];
  for (int k = 0; k < 7; k++) {
    in[k] = malloc(size * sizeof(float));
    if (fread(in[k], sizeof(float), size, f) != (size_t)size) return 2;
  }
  fclose(f);
  float *wb = malloc(size * sizeof(float)), *mm = malloc(size * sizeof(float));
  for (int round = 0; round < atoi(argv[2]); round++) {
    struct timespec a, b;
    clock_gettime(CLOCK_MONOTONIC, &a);
    for (int field = 0; field < fields; field++) {
      for (int c = 0; c < members; c++) {
        const course *p = &courses[c];
        double w = p->start_wb, d = p->start_mm, since = start - p->mature;
        for (int h = 0; h < hours; h++) {
          int i = p->member * hours + h;
          since += 1;
          w = step_grain(w, since, &t, in[0][i], in[1][i], in[2][i], in[3][i], in[4][i], p);
          d = step_topsoil(d, in[5][i], in[6][i], &s);
          wb[c * hours + h] = w;
          mm[c * hours + h] = d;
        }
      }
    }
    clock_gettime(CLOCK_MONOTONIC, &b);
    double ns = (b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec);
    printf("%.4f\n", ns / ((double)fields * size));
  }
  double sum = 0;
  for (int i = 0; i < size; i++) sum += wb[i] + mm[i];
  printf("sum %.6f\n", sum);
  return 0;
}
