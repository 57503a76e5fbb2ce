/* reliable.h - the project that several tests work through: Reliable Construction Co., Hillier &
 * Lieberman, Introduction to Operations Research (7th-8th ed.), project management with PERT/CPM.
 * Weeks. */
#ifndef TESTS_RECKON_RELIABLE_H
#define TESTS_RECKON_RELIABLE_H

#include "reckon/network.h"
#include "reckon/pert.h"

enum { A, B, C, D, E, F, G, H, I, J, K, L, M, N, RELIABLE_JOBS };

static const struct network_link reliable_links[] = {
    {A, B}, {B, C}, {C, D}, {C, E}, {E, F}, {D, G}, {E, H}, {G, H},
    {C, I}, {F, J}, {I, J}, {J, K}, {J, L}, {H, M}, {K, N}, {L, N},
};
enum { RELIABLE_LINKS = sizeof reliable_links / sizeof reliable_links[0] };

static const struct pert reliable_estimate[RELIABLE_JOBS] = {
    [A] = {1, 2, 3},  [B] = {2, 3.5, 8},  [C] = {6, 9, 18}, [D] = {4, 5.5, 10}, [E] = {1, 4.5, 5},
    [F] = {4, 4, 10}, [G] = {5, 6.5, 11}, [H] = {5, 8, 17}, [I] = {3, 7.5, 9},  [J] = {3, 9, 9},
    [K] = {4, 4, 4},  [L] = {1, 5.5, 7},  [M] = {1, 2, 3},  [N] = {5, 5.5, 9},
};

#endif
