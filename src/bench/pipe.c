#include "bench/pipe.h"

#include <math.h>

double pipe_friction(double reynolds, double relative)
{
    if (reynolds < 2300) return 64 / reynolds;
    double x = 8; /* 1 / root f; each round leaves less than a fifth of the error */
    for (int i = 0; i < 20; i++) x = -2 * log10(relative / 3.7 + 2.51 * x / reynolds);
    return 1 / (x * x);
}

struct pipe_flow pipe_flow(double flow, double bore, double length, double density,
                           double viscosity, double roughness)
{
    struct pipe_flow p;
    p.speed = flow / (0.78539816339744831 * bore * bore);
    p.reynolds = density * p.speed * bore / viscosity;
    p.friction = pipe_friction(p.reynolds, roughness / bore);
    p.loss = p.friction * length / bore * density * p.speed * p.speed / 2;
    return p;
}
