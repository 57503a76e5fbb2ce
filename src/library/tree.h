/* tree.h - one YAML file as a tree of nodes that know their lines.
 *
 * A plain subset is taken: one document, mappings with plain keys, no anchors, aliases or tags, at
 * most TREE_DEPTH levels, TREE_NODES values and TREE_KEYS keys in a mapping, each once. libyaml's
 * events are read rather than its documents, since a document no longer shows where an anchor
 * stood. */
#ifndef LIBRARY_TREE_H
#define LIBRARY_TREE_H

#include "library/fault.h"

enum { TREE_DEPTH = 16, TREE_NODES = 200000, TREE_KEYS = 64 };

enum node_kind { NODE_SCALAR, NODE_LIST, NODE_MAP };

struct node {
    enum node_kind kind;
    bool quoted; /* a scalar in quotes or a block: text, never a number */
    int line;    /* of the value; of the key in a mapping */
    int count;   /* of what is below */
    const char *key;
    const char *text; /* scalar */
    struct node *first, *next;
};

/* NULL after a fault. The bytes need no NUL at the end. */
const struct node *tree_read(struct faults *f, const char *file, const char *bytes, size_t size);

/* The value of a key, or NULL. */
const struct node *node_get(const struct node *map, const char *key);
/* "text", "a list", "a mapping" */
const char *node_kind_name(const struct node *n);

#endif
