#include "library/tree.h"

#include "base/text.h"

#include <string.h>
#include <yaml.h>

struct tree {
    yaml_parser_t parser;
    struct faults *faults;
    const char *file;
    const char *bytes;
    int nodes;
};

static int event_line(const yaml_event_t *e)
{
    return (int)e->start_mark.line + 1;
}

static bool refuse(struct tree *t, int line, const char *what)
{
    fault_add(t->faults, t->file, line, "%s", what);
    return false;
}

static bool next_event(struct tree *t, yaml_event_t *e)
{
    if (yaml_parser_parse(&t->parser, e)) return true;
    const yaml_parser_t *p = &t->parser;
    int line = (int)p->problem_mark.line + 1;
    if (p->error == YAML_READER_ERROR) {
        line = 1;
        for (size_t i = 0; i < p->problem_offset; i++) line += t->bytes[i] == '\n';
    }
    fault_add(t->faults, t->file, line,
              "YAML: %s%s%s; mend the indentation, quotes or brackets here",
              p->context ? p->context : "", p->context ? ", " : "",
              p->problem ? p->problem : "out of memory");
    return false;
}

static bool node_build(struct tree *t, const yaml_event_t *e, int depth, struct node **out);

static bool key_build(struct tree *t, const struct node *map, const yaml_event_t *e,
                      const char **key)
{
    if (e->type == YAML_ALIAS_EVENT || (e->type == YAML_SCALAR_EVENT && e->data.scalar.anchor))
        return refuse(t, event_line(e), "anchors and aliases are not used here; write it out");
    if (e->type != YAML_SCALAR_EVENT)
        return refuse(t, event_line(e), "a key must be a word; quote it or mend the brackets");
    *key = arena_copy(t->faults->arena, (const char *)e->data.scalar.value);
    if (map->count == TREE_KEYS)
        return refuse(t, event_line(e), "too many keys in one mapping; is a '-' missing?");
    if (node_get(map, *key)) {
        fault_add(t->faults, t->file, event_line(e), "key '%s' stands twice; keep one of them",
                  fault_word(t->faults, *key));
        return false;
    }
    return true;
}

/* What is below a list or a mapping, up to its end. */
static bool children_build(struct tree *t, struct node *parent, int depth)
{
    struct node **tail = &parent->first;
    for (;;) {
        yaml_event_t e;
        if (!next_event(t, &e)) return false;
        bool end = e.type == YAML_SEQUENCE_END_EVENT || e.type == YAML_MAPPING_END_EVENT;
        const char *key = NULL;
        int key_line = event_line(&e);
        bool good = true;
        if (!end && parent->kind == NODE_MAP) {
            good = key_build(t, parent, &e, &key);
            yaml_event_delete(&e);
            if (!good || !next_event(t, &e)) return false;
        }
        if (!end) good = node_build(t, &e, depth + 1, tail);
        yaml_event_delete(&e);
        if (end || !good) return good;
        if (key) {
            (*tail)->key = key;
            (*tail)->line = key_line;
        }
        tail = &(*tail)->next;
        parent->count++;
    }
}

static bool node_build(struct tree *t, const yaml_event_t *e, int depth, struct node **out)
{
    int line = event_line(e);
    const yaml_char_t *anchor = NULL, *tag = NULL;
    struct node *n = ARENA_NEW(t->faults->arena, struct node);
    n->line = line;
    if (e->type == YAML_ALIAS_EVENT) {
        anchor = e->data.alias.anchor;
    } else if (e->type == YAML_SCALAR_EVENT) {
        anchor = e->data.scalar.anchor, tag = e->data.scalar.tag;
        n->quoted = e->data.scalar.style != YAML_PLAIN_SCALAR_STYLE;
        n->text = arena_copy_n(t->faults->arena, (const char *)e->data.scalar.value,
                               e->data.scalar.length);
        if (strlen(n->text) != e->data.scalar.length)
            return refuse(t, line, "a zero byte in a text; leave it out");
    } else if (e->type == YAML_SEQUENCE_START_EVENT) {
        n->kind = NODE_LIST;
        anchor = e->data.sequence_start.anchor, tag = e->data.sequence_start.tag;
    } else {
        n->kind = NODE_MAP;
        anchor = e->data.mapping_start.anchor, tag = e->data.mapping_start.tag;
    }
    if (anchor) return refuse(t, line, "anchors and aliases are not used here; write it out");
    if (tag) return refuse(t, line, "tags ('!') are not used here; leave it out or quote the text");
    if (depth > TREE_DEPTH) return refuse(t, line, "nested too deep; mend the brackets");
    if (++t->nodes > TREE_NODES) return refuse(t, line, "too many values; split the file");
    *out = n;
    return n->kind == NODE_SCALAR || children_build(t, n, depth);
}

/* The stream: one document, then nothing. */
static bool document_build(struct tree *t, struct node **root)
{
    yaml_event_t e;
    for (int documents = 0;;) {
        if (!next_event(t, &e)) return false;
        yaml_event_type_t type = e.type;
        int line = event_line(&e);
        bool good = true;
        if (type != YAML_STREAM_START_EVENT && type != YAML_STREAM_END_EVENT &&
            type != YAML_DOCUMENT_START_EVENT && type != YAML_DOCUMENT_END_EVENT)
            good = node_build(t, &e, 1, root);
        yaml_event_delete(&e);
        if (!good) return false;
        if (type == YAML_DOCUMENT_START_EVENT && ++documents > 1)
            return refuse(t, line, "a second document; one file holds one, so leave out the '---'");
        if (type == YAML_STREAM_END_EVENT)
            return *root
                       ? true
                       : refuse(t, line, "nothing here; write subject: and entries:, or delete it");
    }
}

const struct node *tree_read(struct faults *f, const char *file, const char *bytes, size_t size)
{
    if (!text_is_utf8(bytes, size)) {
        fault_add(f, file, 0, "not UTF-8 text; save it as UTF-8");
        return NULL;
    }
    struct tree t = {.faults = f, .file = file, .bytes = bytes};
    if (!yaml_parser_initialize(&t.parser)) {
        fault_add(f, file, 0, "out of memory; close other programs");
        return NULL;
    }
    yaml_parser_set_encoding(&t.parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&t.parser, (const unsigned char *)bytes, size);
    struct node *root = NULL;
    bool good = document_build(&t, &root);
    yaml_parser_delete(&t.parser);
    return good ? root : NULL;
}

const struct node *node_get(const struct node *map, const char *key)
{
    if (map->kind != NODE_MAP) return NULL;
    for (const struct node *n = map->first; n; n = n->next)
        if (strcmp(n->key, key) == 0) return n;
    return NULL;
}

const char *node_kind_name(const struct node *n)
{
    return n->kind == NODE_SCALAR ? "text" : n->kind == NODE_LIST ? "a list" : "a mapping";
}
