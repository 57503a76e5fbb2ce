/* mark.h - how well a figure is known: from a named publication, by common practice, a published
 * value told from memory, or invented. */
#ifndef BASE_MARK_H
#define BASE_MARK_H

enum mark { MARK_NONE, MARK_PUBLISHED, MARK_PRACTICE, MARK_MEMORY, MARK_DEMO };

#endif
