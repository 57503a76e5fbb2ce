/* fuses.h - the fuses that are sold. */
#ifndef BENCH_FUSES_H
#define BENCH_FUSES_H

/* A quarter above the steady current, the next size up; 0: more than one fuse carries. */
double fuse_for(double amps);

#endif
