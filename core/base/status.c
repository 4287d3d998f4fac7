#include "base/status.h"

static const char *const descriptions[LW_STATUS_COUNT] = {
    [LW_OK] = "done",
    [LW_NO_MEMORY] = "out of memory",
    [LW_TOO_LARGE] = "larger than the stated limit",
    [LW_BAD_INPUT] = "the input is not what is expected",
    [LW_NOT_FOUND] = "nothing carries that name",
    [LW_AMBIGUOUS] = "the name fits more than one thing",
    [LW_NO_SOLUTION] = "no solution",
    [LW_MANY_SOLUTIONS] = "more than one solution",
    [LW_NOT_CLOSED] = "the facets do not close a solid",
    [LW_EMPTY] = "the facets leave nothing",
    [LW_UNSUPPORTED] = "not supported",
    [LW_CANCELLED] = "stopped before it was done",
};

const char *lw_status_text(lw_status status)
{
    if ((unsigned)status >= LW_STATUS_COUNT) {
        return "unknown status";
    }
    return descriptions[status];
}
