/* CLP by its C interface, without presolver. */
#include "harness.h"

#include <coin/Clp_C_Interface.h>

static const char *status(Clp_Simplex *m) {
  switch (Clp_status(m)) {
    case 0: return "optimal";
    case 1: return "infeasible";
    case 2: return "unbounded";
  }
  return "other";
}

static void run(const Program *p, const int primal[2], long long *build, Answer out[2]) {
  long long at = now();
  Clp_Simplex *m = Clp_newModel();
  Clp_setLogLevel(m, 0);
  Clp_setPrimalTolerance(m, FEASIBLE);
  Clp_setDualTolerance(m, FEASIBLE);
  Clp_setMaximumIterations(m, MOST_ITERATIONS);
  Clp_loadProblem(m, p->columns, p->rows, p->start, p->index, p->value, NULL, p->upper[0], p->cost[0], p->row_lower, p->row_upper[0]);
  *build = now() - at;
  for (int s = 0; s < p->stages; s++) {
    at = now();
    if (s > 0) {
      Clp_chgObjCoefficients(m, p->cost[s]);
      Clp_chgColumnUpper(m, p->upper[s]);
      Clp_chgRowUpper(m, p->row_upper[s]);
    }
    if (primal[s]) {
      Clp_primal(m, 0);
    } else {
      Clp_dual(m, 0);
    }
    out[s].ns = now() - at;
    out[s].status = status(m);
    out[s].objective = Clp_objectiveValue(m);
    if (Clp_status(m) != 0) break;
  }
  Clp_deleteModel(m);
}

const Library clp = {"clp", run};
