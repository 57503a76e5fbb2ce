#include "reckon/pace.h"

#include "base/random.h"

#include <assert.h>
#include <math.h>

void pace_log_add(struct pace_log *log, struct points estimated, double logged)
{
    bool spread = estimated.low < estimated.middle || estimated.middle < estimated.high;
    assert(logged > 0);
    if (!spread) return;
    log->jobs++;
    log->z_sum += points_z(estimated, logged);
}

static double own_share(struct pace_shares s)
{
    double own = 1 - s.pace - s.state;
    assert(s.pace >= 0 && s.state >= 0 && own > 0);
    return own;
}

/* A vehicle's mean z is sqrt(a) P + sqrt(b) S + noise of variance own / jobs; S is unknown too, so
 * that as a measurement of sqrt(a) P it has variance b + own / jobs, however many jobs. */
struct normal pace_posterior(struct pace_shares shares, const struct pace_log *logs, int vehicles)
{
    double own = own_share(shares), precision = 1, weighted = 0;
    for (int v = 0; v < vehicles; v++) {
        if (logs[v].jobs == 0) continue;
        double jobs = logs[v].jobs;
        double variance = shares.state + own / jobs;
        precision += shares.pace / variance;
        weighted += sqrt(shares.pace) * logs[v].z_sum / jobs / variance;
    }
    return (struct normal){weighted / precision, sqrt(1 / precision)};
}

struct normal pace_state(struct pace_shares shares, struct pace_log log, double pace)
{
    double own = own_share(shares);
    if (log.jobs == 0) return (struct normal){0, 1};
    double noise = own / log.jobs, variance = shares.state + noise;
    double rest = log.z_sum / log.jobs - sqrt(shares.pace) * pace;
    return (struct normal){sqrt(shares.state) * rest / variance, sqrt(noise / variance)};
}

struct normal pace_predict(struct pace_shares shares, const struct pace_log *logs, int vehicles,
                           int which)
{
    assert(which >= 0 && which < vehicles);
    struct normal pace = pace_posterior(shares, logs, vehicles);
    struct normal state = pace_state(shares, logs[which], pace.mean);
    /* S leans against P: of what the log shows, the more is pace, the less is state. */
    double lean = pace_state(shares, logs[which], 1).mean - pace_state(shares, logs[which], 0).mean;
    double by_pace = (sqrt(shares.pace) + sqrt(shares.state) * lean) * pace.sd;
    double by_state = sqrt(shares.state) * state.sd;
    return (struct normal){
        sqrt(shares.pace) * pace.mean + sqrt(shares.state) * state.mean,
        sqrt(by_pace * by_pace + by_state * by_state + own_share(shares)),
    };
}

double pace_quantile(struct points p, struct normal z, double chance)
{
    return points_draw(p, z.mean + z.sd * normal_quantile(chance));
}
