/* What every fuzzer defines. */
#ifndef LW_FUZZ_FUZZ_H
#define LW_FUZZ_FUZZ_H

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* A promise that a fuzzer checks; unlike assert it is there in every build. */
#define LW_FUZZ_HOLDS(condition)                                                                   \
    do {                                                                                           \
        if (!(condition)) {                                                                        \
            __builtin_trap();                                                                      \
        }                                                                                          \
    } while (0)

#endif
