#include "base/csv.h"

#include "base/text.h"

#include <string.h>

struct reader {
    struct arena *a;
    const char *at, *end;
    int line;
    char separator;
    struct csv *out;
    size_t rows_capacity, cells_capacity;
    struct fail *f;
};

/* The one that the first line has; quoted cells are passed over. */
static char separator_of(const char *at, const char *end)
{
    static const char known[] = {',', ';', '\t'};
    int seen[sizeof known] = {0};
    bool quoted = false;
    for (; at < end && (quoted || (*at != '\n' && *at != '\r')); at++) {
        if (*at == '"') quoted = !quoted;
        for (size_t i = 0; i < sizeof known && !quoted; i++) seen[i] += *at == known[i];
    }
    for (size_t i = 0; i < sizeof known; i++)
        if (seen[i]) return known[i];
    return ',';
}

/* Steps over a line end if there is one here. */
static bool take_line_end(struct reader *r)
{
    if (r->at == r->end || (*r->at != '\n' && *r->at != '\r')) return false;
    if (*r->at == '\r' && r->at + 1 < r->end && r->at[1] == '\n') r->at++;
    r->at++;
    r->line++;
    return true;
}

/* Behind the opening quote. */
static bool take_quoted(struct reader *r, const char **cell)
{
    struct text t = {.arena = r->a};
    const int opened = r->line;
    for (;;) {
        const char *from = r->at;
        while (r->at < r->end && *r->at != '"' && *r->at != '\n' && *r->at != '\r') r->at++;
        text_add_n(&t, from, (size_t)(r->at - from));
        if (r->at == r->end)
            return fail_set(r->f, FAIL_INPUT,
                            "line %d: a double quote opens and none closes it; close it", opened);
        if (take_line_end(r)) {
            text_add(&t, "\n");
            continue;
        }
        if (++r->at == r->end || *r->at != '"') break;
        text_add(&t, "\"");
        r->at++;
    }
    *cell = arena_copy(r->a, text_get(&t));
    if (r->at == r->end || *r->at == r->separator || *r->at == '\n' || *r->at == '\r') return true;
    return fail_set(r->f, FAIL_INPUT,
                    "line %d: text stands behind a closing double quote; write a quote within a "
                    "cell twice",
                    r->line);
}

static bool take_cell(struct reader *r, const char **cell)
{
    const char *from = r->at;
    if (r->at < r->end && *r->at == '"') {
        r->at++;
        return take_quoted(r, cell);
    }
    for (; r->at < r->end && *r->at != r->separator && *r->at != '\n' && *r->at != '\r'; r->at++)
        if (*r->at == '"')
            return fail_set(r->f, FAIL_INPUT,
                            "line %d: a double quote stands within a cell; put the whole cell in "
                            "quotes and write that one twice",
                            r->line);
    *cell = arena_copy_n(r->a, from, (size_t)(r->at - from));
    return true;
}

static bool take_row(struct reader *r)
{
    struct csv_row row = {.line = r->line};
    r->cells_capacity = 0;
    for (;;) {
        const char *cell = NULL;
        if (!take_cell(r, &cell)) return false;
        row.cells =
            arena_grow(r->a, row.cells, (size_t)row.n_cells, &r->cells_capacity, sizeof *row.cells);
        row.cells[row.n_cells++] = cell;
        if (r->at == r->end || take_line_end(r)) break;
        r->at++; /* a separator */
    }
    struct csv *out = r->out;
    out->rows =
        arena_grow(r->a, out->rows, (size_t)out->n_rows, &r->rows_capacity, sizeof *out->rows);
    out->rows[out->n_rows++] = row;
    return true;
}

/* On which line is the first byte that is no UTF-8? */
static int line_of_fault(const char *bytes, size_t n)
{
    int line = 1;
    size_t from = 0;
    for (size_t i = 0; i < n; i++) {
        if (bytes[i] != '\n') continue;
        if (!text_is_utf8(bytes + from, i - from)) return line;
        from = i + 1;
        line++;
    }
    return line;
}

bool csv_read(struct arena *a, const char *bytes, size_t n, struct csv *out, struct fail *f)
{
    static const char mark[] = "\xef\xbb\xbf";
    *out = (struct csv){0};
    if (n >= 3 && memcmp(bytes, mark, 3) == 0) {
        bytes += 3;
        n -= 3;
    }
    if (!text_is_utf8(bytes, n))
        return fail_set(f, FAIL_INPUT, "line %d: is not UTF-8 text; save it as UTF-8",
                        line_of_fault(bytes, n));
    struct reader r = {.a = a,
                       .at = bytes,
                       .end = bytes + n,
                       .line = 1,
                       .separator = separator_of(bytes, bytes + n),
                       .out = out,
                       .f = f};
    out->separator = r.separator;
    while (r.at < r.end)
        if (!take_line_end(&r) && !take_row(&r)) return false;
    return true;
}
