/* Tables of other programs: whatever the bytes, a table or one clean line with a line's number.
 * Held: what was read, written again with every cell in quotes, is read as the same table. */
#include "base/csv.h"

#include "base/text.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static const char *written(struct arena *a, const struct csv *csv)
{
    struct text t = {.arena = a};
    for (int i = 0; i < csv->n_rows; i++)
        for (int k = 0; k < csv->rows[i].n_cells; k++) {
            text_add(&t, k ? "," : i ? "\r\n" : "");
            text_add(&t, "\"");
            for (const char *s = csv->rows[i].cells[k]; *s; s++)
                text_add_n(&t, *s == '"' ? "\"\"" : s, *s == '"' ? 2 : 1);
            text_add(&t, "\"");
        }
    return text_get(&t);
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    struct arena a = arena_open((size_t)256 << 20);
    struct csv csv, again;
    struct fail f = {0};
    char *copy = malloc(size + (size == 0)); /* reading beyond it is seen */
    memcpy(copy, data, size);
    if (!csv_read(&a, copy, size, &csv, &f)) {
        assert(f.kind == FAIL_INPUT && text_starts(f.text, "line ") && !strchr(f.text, '\n'));
    } else {
        const char *text = written(&a, &csv);
        bool ok = csv_read(&a, text, strlen(text), &again, &f);
        assert(ok && again.n_rows == csv.n_rows);
        for (int i = 0; i < csv.n_rows; i++) {
            assert(again.rows[i].n_cells == csv.rows[i].n_cells && csv.rows[i].n_cells > 0);
            for (int k = 0; k < csv.rows[i].n_cells; k++)
                assert(text_is(again.rows[i].cells[k], csv.rows[i].cells[k]));
        }
    }
    free(copy);
    arena_close(&a);
    return 0;
}
