/* GLPK by its own simplex, without presolver. */
#include "harness.h"

#include <glpk.h>
#include <math.h>
#include <stdlib.h>

static int kind(double lower, double upper) {
  if (lower == upper) return GLP_FX;
  if (isinf(lower)) return isinf(upper) ? GLP_FR : GLP_UP;
  return isinf(upper) ? GLP_LO : GLP_DB;
}

static void stage(glp_prob *lp, const Program *p, int s) {
  for (int j = 0; j < p->columns; j++) {
    glp_set_obj_coef(lp, j + 1, p->cost[s][j]);
    glp_set_col_bnds(lp, j + 1, kind(0, p->upper[s][j]), 0, p->upper[s][j]);
  }
  for (int i = 0; i < p->rows; i++)
    glp_set_row_bnds(lp, i + 1, kind(p->row_lower[i], p->row_upper[s][i]), p->row_lower[i], p->row_upper[s][i]);
}

static const char *status(glp_prob *lp, int failed) {
  if (failed) return "other";
  switch (glp_get_status(lp)) {
    case GLP_OPT: return "optimal";
    case GLP_NOFEAS: return "infeasible";
    case GLP_UNBND: return "unbounded";
  }
  return glp_get_prim_stat(lp) == GLP_NOFEAS ? "infeasible" : "other";
}

static void run(const Program *p, const int primal[2], long long *build, Answer out[2]) {
  static int quiet;
  if (!quiet) quiet = !glp_term_out(GLP_OFF) + 1;
  const int entries = p->start[p->columns];
  /* GLPK wants rows and columns of each entry, counted from one. */
  int *row = malloc(sizeof(int) * (entries + 1)), *column = malloc(sizeof(int) * (entries + 1));
  double *value = malloc(sizeof(double) * (entries + 1));
  for (int j = 0; j < p->columns; j++)
    for (int k = p->start[j]; k < p->start[j + 1]; k++) {
      row[k + 1] = p->index[k] + 1;
      column[k + 1] = j + 1;
      value[k + 1] = p->value[k];
    }
  long long at = now();
  glp_prob *lp = glp_create_prob();
  glp_add_rows(lp, p->rows);
  glp_add_cols(lp, p->columns);
  glp_load_matrix(lp, entries, row, column, value);
  stage(lp, p, 0);
  glp_scale_prob(lp, GLP_SF_AUTO);
  *build = now() - at;
  glp_smcp parm;
  glp_init_smcp(&parm);
  parm.msg_lev = GLP_MSG_OFF;
  parm.it_lim = MOST_ITERATIONS;
  parm.tol_bnd = parm.tol_dj = FEASIBLE;
  for (int s = 0; s < p->stages; s++) {
    at = now();
    if (s > 0) stage(lp, p, s);
    parm.meth = primal[s] ? GLP_PRIMAL : GLP_DUALP;
    const int failed = glp_simplex(lp, &parm);
    out[s].ns = now() - at;
    out[s].status = status(lp, failed);
    out[s].objective = glp_get_obj_val(lp);
    if (failed || glp_get_status(lp) != GLP_OPT) break;
  }
  glp_delete_prob(lp);
  free(row);
  free(column);
  free(value);
}

const Library glpk = {"glpk", run};
