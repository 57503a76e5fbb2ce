/* seal.h - what a seal is made of and what holds it: for the trade data that lists them and for the
 * sum that chooses among them. */
#ifndef BASE_SEAL_H
#define BASE_SEAL_H

enum seal_kind { SEAL_SPONGE, SEAL_SOLID, SEAL_FOAM, SEAL_KINDS };
enum seal_hold { HELD_BY_FLANGE, HELD_IN_GROOVE, HELD_BY_GLUE, SEAL_HOLDS };

#endif
