/* What the parts of the harness share: a program in two stages, and what a
 * library answers. */
#ifndef HARNESS_H
#define HARNESS_H

#include <stdio.h>

/* FEASIBLE is how far a library may leave a bound or a reduced cost on the wrong
 * side; the solver that it is compared with has the same tolerance. */
#define FEASIBLE 1e-9

/* A solve that does not end by itself ends after this many iterations, and then
 * has the status "other". */
#define MOST_ITERATIONS 20000

/* A program: minimise cost x, 0 <= x <= upper, row_lower <= A x <= row_upper. A is
 * kept by columns, counted from zero. The second stage has other costs and upper
 * bounds and the same A. */
typedef struct {
  int columns, rows, stages;
  double *row_lower;
  double *cost[2], *upper[2], *row_upper[2];
  int *start, *index;
  double *value;
} Program;

typedef struct {
  const char *status;
  double objective;
  long long ns;
} Answer;

/* A way to solve a program: a library, and primal or dual simplex for each stage,
 * the second going on from the basis of the first. It gives the time for building
 * the model and an answer for each stage; it stops after a stage without optimum. */
typedef struct {
  const char *name;
  void (*run)(const Program *p, const int primal[2], long long *build, Answer out[2]);
} Library;

extern const Library glpk, clp;

/* now is the time in nanoseconds. */
long long now(void);

/* read_program reads the next program and how often to solve it; 0 at the end. */
int read_program(FILE *in, Program *p, int *repeats);
void free_program(Program *p);

#endif
