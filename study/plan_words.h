/* A plan in plain words, for whoever shows it.
 *
 * Each writes a sentence or a few, without a line end, with '.' as the decimal point whatever the
 * locale. Same return as snprintf.
 */
#ifndef LW_STUDY_PLAN_WORDS_H
#define LW_STUDY_PLAN_WORDS_H

#include "plan.h"

#include <stddef.h>

/* Why entry i of a finished plan stands where it does: the first by what it is best in, the others
 * by what they lose and gain against the first. */
size_t lw_plan_write_why(const lw_plan *plan, int i, char *text, size_t capacity);

/* The five parts of its score: "81 of 100: size 40 of 40, light 25 of 30, …". */
size_t lw_plan_write_score(const lw_plan_entry *entry, char *text, size_t capacity);

/* How the stone lies in the rough: which way the table looks, how it stands to the c axis, what it
 * touches. */
size_t lw_plan_write_place(const lw_plan *plan, const lw_plan_entry *entry, char *text,
                           size_t capacity);

/* What orientation the material asks for, "" when it asks for none. Static storage. */
const char *lw_plan_orientation_advice(const lw_material *material);

#endif
