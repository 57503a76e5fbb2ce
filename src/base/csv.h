/* csv.h - tables as other programs write them: RFC 4180, with or without a byte order mark.
 *
 * Rows of cells parted by commas; if the first line has no comma but semicolons or tabs, by those.
 * A cell in double quotes may hold separators, line ends and quotes written twice. Lines end with
 * LF, CRLF or CR; empty lines are passed over. What is not UTF-8, and quotes that are broken, are
 * refused with the number of their line: nothing after them can be trusted. */
#ifndef BASE_CSV_H
#define BASE_CSV_H

#include "base/arena.h"
#include "base/fail.h"

struct csv_row {
    int line; /* on which it begins, from 1 */
    const char **cells;
    int n_cells; /* 1 or more */
};

struct csv {
    struct csv_row *rows;
    int n_rows;
    char separator;
};

bool csv_read(struct arena *a, const char *bytes, size_t n, struct csv *out, struct fail *f);

#endif
