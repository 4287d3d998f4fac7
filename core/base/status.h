/* The one status type of the project.
 *
 * Every function that can fail for a reason outside the programmer's control returns lw_status;
 * on any value but LW_OK its out-parameters are untouched. Programmer mistakes assert.
 */
#ifndef LW_BASE_STATUS_H
#define LW_BASE_STATUS_H

typedef enum lw_status {
    LW_OK = 0,
    LW_NO_MEMORY,      /* the allocator refused */
    LW_TOO_LARGE,      /* a count or a size passes a stated limit */
    LW_BAD_INPUT,      /* the user's text or number is not what is expected there */
    LW_NOT_FOUND,      /* a name that nothing carries */
    LW_AMBIGUOUS,      /* a name that fits more than one thing */
    LW_NO_SOLUTION,    /* the conditions contradict one another */
    LW_MANY_SOLUTIONS, /* the conditions leave more than one answer */
    LW_NOT_CLOSED,     /* the half-spaces do not bound a solid */
    LW_EMPTY,          /* the half-spaces have no common interior */
    LW_UNSUPPORTED,    /* understood, and refused: outside what the project does */
    LW_CANCELLED,      /* asked to stop before it was done */
    LW_STATUS_COUNT
} lw_status;

/* A sentence fragment for a status, in English, lower case, no full stop. Static storage. */
const char *lw_status_text(lw_status status);

#endif
