/* entry.h - what a person typed into a checked record: the same for every kind. */
#ifndef CLI_ENTRY_H
#define CLI_ENTRY_H

#include "face/cli/context.h"

/* "key=value" cut at the first '='; false with a line if there is none. */
bool entry_split(struct arena *a, const char *word, const char **key, const char **value,
                 struct fail *f);
/* Sets the fields named by c->words[from..]; a key given twice is refused. */
bool entry_fill(struct context *c, struct record *r, int from, struct fail *f);
/* A kind by name, with a suggestion if there is none. */
bool entry_kind(const char *name, const struct record_kind **out, struct fail *f);
/* Records of a kind: of --vehicle where that is given, else of all. */
bool entry_list(struct context *c, const struct record_kind *k, struct record **out, int *count,
                struct fail *f);
/* One line that tells a record: its label, or its known fields. */
const char *entry_tell(struct arena *a, const struct record *r);

#endif
