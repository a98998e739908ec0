/*
 * The stirred resin bath of BenchmarkRunaway8h, solved by CVODE of SUNDIALS: a
 * yardstick for the Go integrator. How to build and run it, and what was
 * measured: cvode.md. Equations as in kinetics/vessel/doc.go and bath.py,
 * constants as medium() in kinetics/vessel/fixture_test.go; a change there is
 * to be made here too. SI throughout.
 *
 *     ./cvode_bath [rtol [atol_alpha [atol_T]]]
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

enum { REPETITIONS = 2000 };

static const double R = 8.314462618; /* J/(mol K) */
static const double CELSIUS = 273.15;
static const double HORIZON = 8 * 3600.0;

/* Cure, Kamal-Sourour with m = 1, n = 2 and one activation energy. */
static const double A1 = 9.065e4, A2_OVER_A1 = 10, E = 56000;
static const double GEL = 0.577;
/* Glass temperature (DiBenedetto) and vitrification. */
static const double TG0 = -35 + 273.15, TG1 = 120 + 273.15, LAMBDA = 0.36;
static const double SHIFT = 10, SHARPNESS = 60;
/* Viscosity, Castro-Macosko: it serves the time of doubling only. */
static const double FLOW_ENERGY = 70000, VISCOSITY_A = 1.5, VISCOSITY_B = 1;
/* Resin and tray. */
static const double HEAT = 430e3, DENSITY = 1110, HEAT_CAPACITY = 2200, MASS = 1;
static const double LENGTH = 0.15, WIDTH = 0.12, H_SURFACE = 10, H_WALL = 6;

typedef struct {
    double room;      /* K */
    double rise;      /* H/cp, K */
    double loss_rate; /* all losses over m cp, 1/s */
} Bath;

typedef struct {
    double doubled, gel, peak_at, peak; /* s, s, s, K; NAN: not reached */
    long steps, rhs, root_functions;
    long rhs_jacobian; /* for differenced Jacobians, not in rhs */
} Result;

typedef struct {
    void *cvode;
    N_Vector y;
    Bath bath;
} Solver;

static void require(int ok, const char *what)
{
    if (!ok) {
        fprintf(stderr, "cvode_bath: %s failed\n", what);
        exit(1);
    }
}

static double unit(double x) { return x < 0 ? 0 : x > 1 ? 1 : x; }

/* slowing is the vitrification factor; the glass temperature at alpha_v is T + shift. */
static double slowing(double alpha, double T)
{
    double x = (T + SHIFT - TG0) / (TG1 - TG0);
    double bottom = LAMBDA + (1 - LAMBDA) * x;
    if (bottom <= 0)
        return 0;
    double over = SHARPNESS * (alpha - x / bottom);
    return over < -40 ? 1 : 1 / (1 + exp(over)); /* 1 to the last bit, as in Go */
}

static double rate(double alpha, double T)
{
    double a = unit(alpha), k1 = A1 * exp(-E / (R * T));
    return k1 * (1 + A2_OVER_A1 * a) * (1 - a) * (1 - a) * slowing(alpha, T);
}

static double warming(const Bath *b, double rate, double T)
{
    return b->rise * rate - b->loss_rate * (T - b->room);
}

static int derivative(realtype t, N_Vector y, N_Vector dydt, void *data)
{
    (void)t;
    double T = NV_Ith_S(y, 1);
    NV_Ith_S(dydt, 0) = rate(NV_Ith_S(y, 0), T);
    NV_Ith_S(dydt, 1) = warming(data, NV_Ith_S(dydt, 0), T);
    return 0;
}

enum { AT_GEL, AT_DOUBLED, AT_PEAK, MILESTONES };

/* milestones vanish at gel, at twice the viscosity of the start and where the bath is warmest. */
static int milestones(realtype t, N_Vector y, realtype *g, void *data)
{
    (void)t;
    const Bath *b = data;
    double alpha = unit(NV_Ith_S(y, 0)), T = NV_Ith_S(y, 1);
    double growth = 60; /* stands for infinity from gel on, as in Go */
    if (alpha < GEL)
        growth = fmin(growth, (VISCOSITY_A + VISCOSITY_B * alpha) * log(GEL / (GEL - alpha)));
    g[AT_GEL] = alpha - GEL;
    g[AT_DOUBLED] = FLOW_ENERGY / R * (1 / T - 1 / b->room) + growth - M_LN2;
    g[AT_PEAK] = warming(b, rate(alpha, T), T);
    return 0;
}

/* note writes down the milestones that CVODE has just found at t. */
static void note(const Solver *s, double t, Result *r)
{
    int found[MILESTONES];
    require(CVodeGetRootInfo(s->cvode, found) == CV_SUCCESS, "CVodeGetRootInfo");
    if (found[AT_GEL] && isnan(r->gel))
        r->gel = t;
    if (found[AT_DOUBLED] && isnan(r->doubled))
        r->doubled = t;
    if (found[AT_PEAK] && NV_Ith_S(s->y, 1) > r->peak) {
        r->peak = NV_Ith_S(s->y, 1);
        r->peak_at = t;
    }
}

static Result solve(const Solver *s)
{
    Result r = {.doubled = NAN, .gel = NAN, .peak = s->bath.room, .peak_at = 0};
    NV_Ith_S(s->y, 0) = 0;
    NV_Ith_S(s->y, 1) = s->bath.room;
    require(CVodeReInit(s->cvode, 0, s->y) == CV_SUCCESS, "CVodeReInit");
    for (int status = CV_ROOT_RETURN; status == CV_ROOT_RETURN;) {
        realtype t;
        status = CVode(s->cvode, HORIZON, s->y, &t, CV_NORMAL);
        require(status >= 0, "CVode");
        if (status == CV_ROOT_RETURN)
            note(s, t, &r);
    }
    CVodeGetNumSteps(s->cvode, &r.steps);
    CVodeGetNumRhsEvals(s->cvode, &r.rhs);
    CVodeGetNumLinRhsEvals(s->cvode, &r.rhs_jacobian);
    CVodeGetNumGEvals(s->cvode, &r.root_functions);
    return r;
}

static void losses(Bath *b)
{
    double area = LENGTH * WIDTH, depth = MASS / (DENSITY * area);
    double wetted = area + 2 * (LENGTH + WIDTH) * depth;
    b->room = 25 + CELSIUS;
    b->rise = HEAT / HEAT_CAPACITY;
    b->loss_rate = (H_SURFACE * area + H_WALL * wetted) / (MASS * HEAT_CAPACITY);
}

static double argument(int argc, char **argv, int i, double otherwise)
{
    if (i >= argc)
        return otherwise;
    char *end;
    double value = strtod(argv[i], &end);
    require(end != argv[i] && *end == '\0' && value > 0 && isfinite(value), "reading a tolerance, a number above 0,");
    return value;
}

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

int main(int argc, char **argv)
{
    double rtol = argument(argc, argv, 1, 1e-6);
    SUNContext context;
    require(SUNContext_Create(NULL, &context) == 0, "SUNContext_Create");
    Solver s = {.y = N_VNew_Serial(2, context), .cvode = CVodeCreate(CV_BDF, context)};
    N_Vector atol = N_VNew_Serial(2, context);
    SUNMatrix jacobian = SUNDenseMatrix(2, 2, context);
    require(s.y && s.cvode && atol && jacobian, "allocation");
    losses(&s.bath);
    NV_Ith_S(s.y, 0) = 0;
    NV_Ith_S(s.y, 1) = s.bath.room;
    /* alpha starts at 0, where rtol says nothing; T is never near 0, where atol would matter. */
    NV_Ith_S(atol, 0) = argument(argc, argv, 2, 1e-9);
    NV_Ith_S(atol, 1) = argument(argc, argv, 3, 1e-6);
    SUNLinearSolver linear = SUNLinSol_Dense(s.y, jacobian, context);
    require(CVodeInit(s.cvode, derivative, 0, s.y) == CV_SUCCESS, "CVodeInit");
    require(CVodeSVtolerances(s.cvode, rtol, atol) == CV_SUCCESS, "CVodeSVtolerances");
    require(CVodeSetMaxNumSteps(s.cvode, 100000) == CV_SUCCESS, "CVodeSetMaxNumSteps"); /* for tight tolerances */
    require(CVodeSetUserData(s.cvode, &s.bath) == CV_SUCCESS, "CVodeSetUserData");
    require(CVodeSetLinearSolver(s.cvode, linear, jacobian) == CV_SUCCESS, "CVodeSetLinearSolver");
    require(CVodeRootInit(s.cvode, MILESTONES, milestones) == CV_SUCCESS, "CVodeRootInit");
    int direction[MILESTONES] = {[AT_GEL] = 1, [AT_DOUBLED] = 1, [AT_PEAK] = -1};
    require(CVodeSetRootDirection(s.cvode, direction) == CV_SUCCESS, "CVodeSetRootDirection");

    Result r = solve(&s); /* not timed: first touch of code and memory */
    double start = seconds();
    for (int i = 0; i < REPETITIONS; i++)
        r = solve(&s);
    double each = (seconds() - start) / REPETITIONS;

    printf("doubled  %.9g s\ngel      %.9g s\npeak     %.9g K at %.9g s\n", r.doubled, r.gel, r.peak, r.peak_at);
    printf("rhs      %ld (%ld of them for Jacobians) in %ld steps, root functions %ld times\n",
           r.rhs + r.rhs_jacobian, r.rhs_jacobian, r.steps, r.root_functions);
    printf("time     %.2f us per solve, mean of %d\n", 1e6 * each, REPETITIONS);

    CVodeFree(&s.cvode);
    SUNLinSolFree(linear);
    SUNMatDestroy(jacobian);
    N_VDestroy(atol);
    N_VDestroy(s.y);
    SUNContext_Free(&context);
    return 0;
}
