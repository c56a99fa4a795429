/* simulator.h - circuits for ngspice, and its answers: the same laws as
 * calc/circuit_law.h, reltol 1e-10, vntol 1e-12, gmin 1e-18.
 *
 * A header of static functions: each test program is one source file. */
#ifndef SIMULATOR_H
#define SIMULATOR_H

#include "calc/circuit_net.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define FOLDER BUILD "/circuits"
/* V, kT/q at 27 degC with the constants of ngspice 39 (CODATA 2014). */
#define SIMULATOR_VT (1.38064852e-23 * 300.15 / 1.6021766208e-19)

struct simulated {
    const struct net_part *part;
    struct net net;
    struct net_solution solution;
};

static void write_load(FILE *f, size_t i, const struct net_part *p,
                       const char *law, double at_one) {
    fprintf(f,
            "B%zu n%zu n%zu I = abs(V(n%zu,n%zu)) < 1 ? %.17g*V(n%zu,n%zu) : "
            "sgn(V(n%zu,n%zu))*%s\n",
            i, p->from, p->to, p->from, p->to, at_one, p->from, p->to, p->from,
            p->to, law);
}

static void write_part(FILE *f, size_t i, const struct net_part *p) {
    const double *x = p->law.figure;
    char law[200];
    switch (p->law.law) {
    case LAW_RESISTANCE:
        fprintf(f, "R%zu n%zu n%zu %.17g\n", i, p->from, p->to, x[0]);
        return;
    case LAW_SUPPLY:
        fprintf(f, "V%zu e%zu n%zu %.17g\nR%zu e%zu n%zu %.17g\n", i, i,
                p->from, x[0], i, i, p->to, x[1]);
        return;
    case LAW_LIMITED:
        snprintf(law, sizeof law, "((V(n%zu,n%zu)+%.17g)/%.17g)", p->from,
                 p->to, x[0], x[1]);
        fprintf(f, "B%zu n%zu n%zu I = min(%s,%.17g)+%.17g*abs(%s-%.17g)\n", i,
                p->from, p->to, law, x[2], LAW_LIMIT_LEAK, law, x[2]);
        return;
    case LAW_WIRE:
        fprintf(f,
                "B%zu n%zu n%zu I = V(n%zu,n%zu)*max(2/(%.17g+sqrt(%.17g+"
                "%.17g*V(n%zu,n%zu)*V(n%zu,n%zu))),%.17g)\n",
                i, p->from, p->to, p->from, p->to, x[0], x[0] * x[0], 4 * x[1],
                p->from, p->to, p->from, p->to, 1 / x[2]);
        return;
    case LAW_DIODE:
        fprintf(f, "D%zu n%zu n%zu rectifier\nR%zu n%zu n%zu %.17g\n", i,
                p->from, p->to, i, p->from, p->to, 1 / LAW_DIODE_LEAK);
        return;
    case LAW_LAMP:
        snprintf(law, sizeof law, "%.17g*pow(abs(V(n%zu,n%zu))/%.17g,%.17g)",
                 x[0], p->from, p->to, x[1], LAW_LAMP_EXPONENT);
        write_load(f, i, p, law, x[0] * pow(1 / x[1], LAW_LAMP_EXPONENT));
        return;
    case LAW_CURRENT:
        snprintf(law, sizeof law, "%.17g", x[0]);
        write_load(f, i, p, law, x[0]);
        return;
    case LAW_POWER:
        snprintf(law, sizeof law, "%.17g/max(abs(V(n%zu,n%zu)),0.5)", x[0],
                 p->from, p->to);
        write_load(f, i, p, law, x[0]);
        return;
    case LAWS:
        break;
    }
}

/* The first solution is where it starts, too: a circuit with loads of constant
 * power has more than one. */
static void write_net(const struct simulated *r, size_t number) {
    char path[100];
    snprintf(path, sizeof path, FOLDER "/%zu.cir", number);
    FILE *f = fopen(path, "w");
    assert_non_null(f);
    fprintf(f,
            "circuit %zu\n.options reltol=1e-10 vntol=1e-12 "
            "gmin=1e-18 abstol=1e-10 itl1=1000\n"
            "Vzero n0 0 0\n"
            ".model rectifier D(IS=%.17g N=%.17g)\n",
            number, LAW_DIODE_SATURATION, LAW_DIODE_SLOPE / SIMULATOR_VT);
    for (size_t i = 0; i < r->net.part_count; i++)
        write_part(f, i, &r->part[i]);
    for (size_t p = 1; p < r->net.node_count; p++)
        fprintf(f, ".nodeset V(n%zu)=%.9g\n", p, r->solution.volt[p]);
    fprintf(f, ".end\n");
    fclose(f);
}

static void write_script(const char *name, const size_t *number, size_t count) {
    char path[100];
    snprintf(path, sizeof path, FOLDER "/%s.cir", name);
    FILE *f = fopen(path, "w");
    assert_non_null(f);
    fprintf(f, "all\n.control\nset numdgt=15\nset width=200\n");
    for (size_t i = 0; i < count; i++)
        fprintf(f,
                "source " FOLDER "/%zu.cir\nop\nprint all > " FOLDER
                "/%zu.out\ndestroy all\nremcirc\n",
                number[i], number[i]);
    fprintf(f, "quit 0\n.endc\n.end\n");
    fclose(f);
}

static size_t read_net(const struct simulated *r, size_t number,
                       double *worst) {
    char path[100], line[300];
    snprintf(path, sizeof path, FOLDER "/%zu.out", number);
    FILE *f = fopen(path, "r");
    if (f == NULL)
        return 0;
    size_t read = 0;
    while (fgets(line, sizeof line, f) != NULL) {
        size_t p;
        double volt;
        if (sscanf(line, "n%zu = %lf", &p, &volt) != 2 || p == 0 ||
            p >= r->net.node_count)
            continue;
        double mine = r->solution.volt[p];
        double off = fabs(mine - volt) / (fabs(volt) * 1e-6 + 1e-6);
        *worst = off > *worst ? off : *worst;
        read++;
    }
    fclose(f);
    return read;
}

/* Runs what write_script() wrote; its status means nothing, its answers do. */
static void run_simulator(const char *name) {
    char command[200];
    snprintf(command, sizeof command,
             "ngspice -b " FOLDER "/%s.cir >" FOLDER "/%s.log 2>&1", name,
             name);
    assert_int_not_equal(system(command), -1);
}

#endif
