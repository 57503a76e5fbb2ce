/* words.h - the closed lists of words that trade data may use, each as a function from 0, 1, ... to
 * the word, NULL past the last. An empty word is a value that cannot be written. */
#ifndef LIBRARY_WORDS_H
#define LIBRARY_WORDS_H

typedef const char *word_list(int i);

word_list word_mark, word_package, word_from, word_storage, word_state, word_condition,
    word_subject, word_outing, word_clue_of, word_mark_of, word_originality, word_date_part,
    word_join_rule, word_seal_kind, word_seal_hold, word_way, word_undo, word_again, word_broken_is,
    word_broken_metal, word_broken_hole, word_broken_drill;
/* The conditions that have odds of their own: sound .. failed. */
word_list word_aged;

/* Index of a word, or -1. */
int word_find(word_list *words, const char *s);

#endif
