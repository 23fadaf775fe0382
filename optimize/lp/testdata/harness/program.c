/* Reads programs: "program COLUMNS ROWS STAGES REPEATS", then for each stage the
 * costs, the columns' upper bounds and the rows' upper bounds, then for each row
 * its lower bound and its coefficients. */
#include "harness.h"

#include <stdlib.h>
#include <time.h>

long long now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec * 1000000000LL + t.tv_nsec;
}

static void *room(size_t n, size_t size) {
  void *at = calloc(n + 1, size);
  if (!at) {
    perror("harness");
    exit(1);
  }
  return at;
}

static void numbers(FILE *in, double *to, int n) {
  for (int i = 0; i < n; i++) {
    if (fscanf(in, "%lf", &to[i]) != 1) {
      fprintf(stderr, "harness: a number is missing\n");
      exit(1);
    }
  }
}

int read_program(FILE *in, Program *p, int *repeats) {
  if (fscanf(in, " program %d %d %d %d", &p->columns, &p->rows, &p->stages, repeats) != 4) return 0;
  const int n = p->columns, m = p->rows;
  for (int s = 0; s < p->stages; s++) {
    p->cost[s] = room(n, sizeof(double));
    p->upper[s] = room(n, sizeof(double));
    p->row_upper[s] = room(m, sizeof(double));
    numbers(in, p->cost[s], n);
    numbers(in, p->upper[s], n);
    numbers(in, p->row_upper[s], m);
  }
  p->row_lower = room(m, sizeof(double));
  double *dense = room((size_t)m * n, sizeof(double));
  for (int i = 0; i < m; i++) {
    numbers(in, &p->row_lower[i], 1);
    numbers(in, dense + (size_t)i * n, n);
  }
  p->start = room(n + 1, sizeof(int));
  p->index = room((size_t)m * n, sizeof(int));
  p->value = room((size_t)m * n, sizeof(double));
  int at = 0;
  for (int j = 0; j < n; j++) {
    p->start[j] = at;
    for (int i = 0; i < m; i++) {
      const double v = dense[(size_t)i * n + j];
      if (v == 0) continue;
      p->index[at] = i;
      p->value[at++] = v;
    }
  }
  p->start[n] = at;
  free(dense);
  return 1;
}

void free_program(Program *p) {
  for (int s = 0; s < p->stages; s++) {
    free(p->cost[s]);
    free(p->upper[s]);
    free(p->row_upper[s]);
  }
  free(p->row_lower);
  free(p->start);
  free(p->index);
  free(p->value);
}
