/* pipe.h - what a full, straight, round pipe costs: Darcy and Weisbach, with Colebrook's friction.
 */
#ifndef BENCH_PIPE_H
#define BENCH_PIPE_H

struct pipe_flow {
    double speed, reynolds, friction, loss; /* m/s, -, -, Pa */
};

/* relative: roughness by diameter, up to 0.05. 64/Re below 2300. */
double pipe_friction(double reynolds, double relative);
struct pipe_flow pipe_flow(double flow, double bore, double length, double density,
                           double viscosity, double roughness);

#endif
