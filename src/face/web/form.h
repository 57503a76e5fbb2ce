/* form.h - fields of a form, made from the declaration of the record's field: choices, help,
 * limits. What was typed comes back, with one line beside it where it was wrong. */
#ifndef WEB_FORM_H
#define WEB_FORM_H

#include "face/web/html.h"
#include "garage/record.h"

/* Neighbours of the same group stand together under its name; group may be NULL. */
struct form_choice {
    const char *value, *text, *group;
};

struct form_field {
    const char *name, *label;
    const struct field *declared;
    const char *value;   /* as typed, or as it stands; NULL: none */
    const char *fault;   /* the line beside it, or NULL */
    const char *caution; /* beside the question, where finding out can hurt; or NULL */
    const struct form_choice *choices; /* of a text; ended by a NULL value; or NULL */
};

/* A choice, or a text with choices, becomes a list with "don't know" where the field is not
 * required, anything else a line of text: units, sums and three points are typed as at the command
 * line, and read by the same code. */
void form_write(struct html *h, const struct form_field *field);
void form_hidden(struct html *h, const char *name, const char *value);
void form_button(struct html *h, const char *text); /* sends the form */
/* One of several that send it, told apart by "act". */
void form_act(struct html *h, const char *act, const char *text, const char *class_name);
/* Words to look for, sent to that address as "words": a form of its own. */
void form_search(struct html *h, const char *address, const char *label, const char *button,
                 const char *words);
void form_camera(struct html *h, const char *name, const char *label); /* of a form with files */
/* What is wrong with the whole of it; nothing for NULL. */
void form_fault(struct html *h, const char *fault);

#endif
