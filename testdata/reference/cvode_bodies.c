/*
 * Bodies of resin solved by CVODE of SUNDIALS, a yardstick for the Go integrators:
 * the problems that kinetics/still/yardstick_test.go writes, so that cells and
 * constants are those of the Go code. How to build and run it: speed.sh.
 *
 *     ./cvode_bodies PROBLEM RTOL [LEAST_SECONDS [THREADS]]
 *
 * BDF with the banded direct solver of SUNDIALS and a Jacobian that is given:
 * conduction exactly, the cure of each cell by differences, as in the Go code. The
 * state is alpha and T of one cell after another, T above that of the start, so
 * that the relative tolerance is not spent on 300 K. SI throughout.
 *
 * Prints one JSON object: the time of each solve in ms, the least of those within
 * LEAST_SECONDS, and of each body the time of gel in s, null if it is not reached.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

static const double R = 8.314462618; /* J/(mol K) */

typedef struct {
    int n;
    double *at, *is; /* s, K */
} Series;

typedef struct {
    double capacity, heat, to_room, to_wall, near, far;
} Cell;

typedef struct {
    int n, stride;
    double horizon, strict;
    double A1, E1, A2, E2, m, order, gel;
    double tg0, tg1, lambda, shift, sharpness;
    double alpha, start; /* K */
    Series room, wall;
    Cell *cells;
    double room_now, room_slope, wall_now, wall_slope, since;

    SUNContext context;
    void *cvode;
    N_Vector y, atol;
    SUNMatrix jacobian;
    SUNLinearSolver linear;
    double found; /* s, NAN: not reached */
    long rhs;
} Body;

static void require(int ok, const char *what)
{
    if (!ok) {
        fprintf(stderr, "cvode_bodies: %s failed\n", what);
        exit(1);
    }
}

static double number(FILE *f)
{
    double v;
    require(fscanf(f, "%lf", &v) == 1, "reading a number");
    return v;
}

static Series series(FILE *f)
{
    Series s = {.n = (int)number(f)};
    s.at = malloc(s.n * sizeof *s.at);
    s.is = malloc(s.n * sizeof *s.is);
    for (int i = 0; i < s.n; i++) {
        s.at[i] = number(f);
        s.is[i] = number(f);
    }
    return s;
}

static void read_body(FILE *f, Body *b)
{
    b->strict = number(f);
    b->n = (int)number(f), b->stride = (int)number(f), b->horizon = number(f);
    b->A1 = number(f), b->E1 = number(f), b->A2 = number(f), b->E2 = number(f);
    b->m = number(f), b->order = number(f), b->gel = number(f);
    b->tg0 = number(f), b->tg1 = number(f), b->lambda = number(f);
    b->shift = number(f), b->sharpness = number(f);
    b->alpha = number(f), b->start = number(f);
    b->room = series(f), b->wall = series(f);
    b->cells = malloc(b->n * sizeof *b->cells);
    for (int i = 0; i < b->n; i++) {
        Cell *c = &b->cells[i];
        c->capacity = number(f), c->heat = number(f), c->to_room = number(f);
        c->to_wall = number(f), c->near = number(f), c->far = number(f);
    }
    require(b->m == 1 && b->order == 2 && b->E1 == b->E2, "the law is another, reading it");
}

static double unit(double x) { return x < 0 ? 0 : x > 1 ? 1 : x; }

static double rate(const Body *b, double alpha, double T)
{
    double a = unit(alpha), k1 = b->A1 * exp(-b->E1 / (R * T));
    double v = k1 * (1 + b->A2 / b->A1 * a) * (1 - a) * (1 - a);
    double x = (T + b->shift - b->tg0) / (b->tg1 - b->tg0);
    double bottom = b->lambda + (1 - b->lambda) * x;
    if (bottom <= 0)
        return 0;
    double over = b->sharpness * (alpha - x / bottom);
    return over < -20.7 ? v : v / (1 + exp(over)); /* 1 to 1e-9, as in Go */
}

#define ALPHA(v, i) (v)[2 * (i)]
#define ABOVE(v, i) (v)[2 * (i) + 1]

static int derivative(realtype t, N_Vector y, N_Vector dydt, void *data)
{
    const Body *b = data;
    const double *u = N_VGetArrayPointer(y);
    double *d = N_VGetArrayPointer(dydt);
    double dt = t - b->since;
    double room = b->room_now + b->room_slope * dt - b->start;
    double wall = b->wall_now + b->wall_slope * dt - b->start;
    for (int i = 0; i < b->n; i++) {
        const Cell *c = &b->cells[i];
        double r = c->heat > 0 ? rate(b, ALPHA(u, i), b->start + ABOVE(u, i)) : 0;
        ALPHA(d, i) = r;
        ABOVE(d, i) = c->heat * r + c->to_room * (room - ABOVE(u, i)) + c->to_wall * (wall - ABOVE(u, i));
    }
    for (int i = 0; i + 1 < b->n; i++) {
        double q = b->cells[i].near * (ABOVE(u, i + 1) - ABOVE(u, i));
        ABOVE(d, i) += q;
        ABOVE(d, i + 1) -= q;
    }
    if (b->stride > 1)
        for (int i = 0; i + b->stride < b->n; i++) {
            double q = b->cells[i].far * (ABOVE(u, i + b->stride) - ABOVE(u, i));
            ABOVE(d, i) += q;
            ABOVE(d, i + b->stride) -= q;
        }
    for (int i = 0; i < b->n; i++)
        ABOVE(d, i) /= b->cells[i].capacity;
    return 0;
}

static void couple(const Body *b, SUNMatrix J, int i, int j, double g)
{
    SM_ELEMENT_B(J, 2 * i + 1, 2 * j + 1) += g / b->cells[i].capacity;
    SM_ELEMENT_B(J, 2 * i + 1, 2 * i + 1) -= g / b->cells[i].capacity;
    SM_ELEMENT_B(J, 2 * j + 1, 2 * i + 1) += g / b->cells[j].capacity;
    SM_ELEMENT_B(J, 2 * j + 1, 2 * j + 1) -= g / b->cells[j].capacity;
}

static int linearise(realtype t, N_Vector y, N_Vector fy, SUNMatrix J, void *data, N_Vector t1, N_Vector t2, N_Vector t3)
{
    (void)t, (void)t1, (void)t2, (void)t3;
    const Body *b = data;
    const double *u = N_VGetArrayPointer(y), *f = N_VGetArrayPointer(fy);
    SUNMatZero(J);
    for (int i = 0; i < b->n; i++) {
        const Cell *c = &b->cells[i];
        SM_ELEMENT_B(J, 2 * i + 1, 2 * i + 1) -= (c->to_room + c->to_wall) / c->capacity;
        if (c->heat > 0) {
            double alpha = ALPHA(u, i), T = b->start + ABOVE(u, i), r = ALPHA(f, i);
            double step = alpha > 0.5 ? -1e-7 : 1e-7;
            double da = (rate(b, alpha + step, T) - r) / step, dT = (rate(b, alpha, T + 1e-4) - r) / 1e-4;
            SM_ELEMENT_B(J, 2 * i, 2 * i) = da;
            SM_ELEMENT_B(J, 2 * i, 2 * i + 1) = dT;
            SM_ELEMENT_B(J, 2 * i + 1, 2 * i) = c->heat / c->capacity * da;
            SM_ELEMENT_B(J, 2 * i + 1, 2 * i + 1) += c->heat / c->capacity * dT;
        }
        if (i + 1 < b->n && c->near != 0)
            couple(b, J, i, i + 1, c->near);
        if (b->stride > 1 && i + b->stride < b->n)
            couple(b, J, i, i + b->stride, c->far);
    }
    return 0;
}

/* before_gel vanishes where the first cell gels. */
static int before_gel(realtype t, N_Vector y, realtype *g, void *data)
{
    (void)t;
    const Body *b = data;
    const double *u = N_VGetArrayPointer(y);
    double most = 0;
    for (int i = 0; i < b->n; i++)
        if (b->cells[i].heat > 0)
            most = fmax(most, ALPHA(u, i));
    g[0] = most - b->gel;
    return 0;
}

static void line(const Series *s, double t, double *value, double *slope, double *end)
{
    int i = 0;
    while (i < s->n && s->at[i] <= t)
        i++;
    *slope = 0;
    if (i == 0 || i == s->n)
        *value = s->is[i == 0 ? 0 : s->n - 1];
    else {
        *slope = (s->is[i] - s->is[i - 1]) / (s->at[i] - s->at[i - 1]);
        *value = s->is[i - 1] + *slope * (t - s->at[i - 1]);
    }
    if (i < s->n)
        *end = fmin(*end, s->at[i]);
}

static void prepare(Body *b, double rtol)
{
    int width = b->n == 1 ? 1 : 2 * b->stride;
    require(SUNContext_Create(NULL, &b->context) == 0, "SUNContext_Create");
    b->cvode = CVodeCreate(CV_BDF, b->context);
    b->y = N_VNew_Serial(2 * b->n, b->context);
    b->atol = N_VNew_Serial(2 * b->n, b->context);
    b->jacobian = SUNBandMatrix(2 * b->n, width, width, b->context);
    require(b->cvode && b->y && b->atol && b->jacobian, "allocation");
    for (int i = 0; i < b->n; i++) {
        ALPHA(N_VGetArrayPointer(b->atol), i) = rtol * 1e-2;
        ABOVE(N_VGetArrayPointer(b->atol), i) = rtol * 10;
    }
    N_VConst(0, b->y);
    b->linear = SUNLinSol_Band(b->y, b->jacobian, b->context);
    require(CVodeInit(b->cvode, derivative, 0, b->y) == CV_SUCCESS, "CVodeInit");
    require(CVodeSVtolerances(b->cvode, rtol, b->atol) == CV_SUCCESS, "CVodeSVtolerances");
    require(CVodeSetMaxNumSteps(b->cvode, 1000000) == CV_SUCCESS, "CVodeSetMaxNumSteps");
    require(CVodeSetUserData(b->cvode, b) == CV_SUCCESS, "CVodeSetUserData");
    require(CVodeSetLinearSolver(b->cvode, b->linear, b->jacobian) == CV_SUCCESS, "CVodeSetLinearSolver");
    require(CVodeSetJacFn(b->cvode, linearise) == CV_SUCCESS, "CVodeSetJacFn");
    require(CVodeRootInit(b->cvode, 1, before_gel) == CV_SUCCESS, "CVodeRootInit");
}

static void solve(Body *b)
{
    double *u = N_VGetArrayPointer(b->y);
    for (int i = 0; i < b->n; i++) {
        ALPHA(u, i) = b->alpha;
        ABOVE(u, i) = 0;
    }
    b->found = NAN;
    for (double t = 0; t < b->horizon;) {
        double end = b->horizon;
        line(&b->room, t, &b->room_now, &b->room_slope, &end);
        line(&b->wall, t, &b->wall_now, &b->wall_slope, &end);
        b->since = t;
        require(CVodeReInit(b->cvode, t, b->y) == CV_SUCCESS, "CVodeReInit");
        require(CVodeSetStopTime(b->cvode, end) == CV_SUCCESS, "CVodeSetStopTime");
        for (int status = CV_ROOT_RETURN; status == CV_ROOT_RETURN;) {
            status = CVode(b->cvode, end, b->y, &t, CV_NORMAL);
            require(status >= 0, "CVode");
            if (status == CV_ROOT_RETURN && isnan(b->found))
                b->found = t;
        }
    }
}

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

int main(int argc, char **argv)
{
    require(argc >= 3, "usage: cvode_bodies PROBLEM RTOL [LEAST_SECONDS [THREADS]]; reading arguments");
    double rtol = strtod(argv[2], NULL), least = argc > 3 ? strtod(argv[3], NULL) : 0;
    int threads = argc > 4 ? atoi(argv[4]) : 1;
    require(rtol > 0 && threads > 0, "reading a number above 0");
    FILE *f = fopen(argv[1], "r");
    require(f != NULL, "opening the problem");
    int n = (int)number(f);
    number(f); /* what the Go code promises */
    Body *bodies = calloc(n, sizeof *bodies);
    for (int i = 0; i < n; i++) {
        read_body(f, &bodies[i]);
        prepare(&bodies[i], rtol);
    }
    fclose(f);
    double best = INFINITY, began = seconds();
    do {
        double start = seconds();
#pragma omp parallel for schedule(dynamic) num_threads(threads)
        for (int i = 0; i < n; i++)
            solve(&bodies[i]);
        best = fmin(best, seconds() - start);
    } while (seconds() - began < least);
    long steps, rhs = 0;
    for (int i = 0; i < n; i++) {
        CVodeGetNumRhsEvals(bodies[i].cvode, &steps);
        rhs += steps;
    }
    printf("{\"ms\": %.6g, \"rhs\": %ld, \"gel_s\": [", best * 1e3, rhs);
    for (int i = 0; i < n; i++)
        isnan(bodies[i].found) ? printf("%snull", i ? ", " : "") : printf("%s%.12g", i ? ", " : "", bodies[i].found);
    printf("]}\n");
    return 0;
}
