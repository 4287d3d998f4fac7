/* The words behind a verb: the first byte chooses the verb, NUL bytes part the words. Whatever
 * comes in, either everything the verb's table states holds, or there is one line of complaint. */
#include "fuzz.h"

#include "options.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_WORDS = 200 };

static int split(char *text, size_t size, char **words)
{
    int count = 0;
    for (size_t at = 0; at < size && count < MOST_WORDS; at += strlen(text + at) + 1) {
        words[count++] = text + at;
    }
    return count;
}

static void check_number(const cli_option *option, double value)
{
    LW_FUZZ_HOLDS(isfinite(value) && value >= option->lowest && value <= option->highest);
    LW_FUZZ_HOLDS(!option->whole || value == floor(value));
}

static void check_given(const cli_given *given)
{
    const cli_option *option = given->option;
    if (option->kind == CLI_NUMBER || option->kind == CLI_NUMBERS) {
        LW_FUZZ_HOLDS(given->count >= 1 && given->count <= CLI_MOST_LIST);
        for (int i = 0; i < given->count; i++) {
            check_number(option, given->numbers[i]);
        }
    }
    if (option->kind == CLI_NUMBERS) {
        LW_FUZZ_HOLDS(given->count >= option->least && given->count <= option->most);
    }
    if (option->kind == CLI_SETTING) {
        LW_FUZZ_HOLDS(given->setting.name == given->setting_name && given->setting_name[0] != '\0');
        LW_FUZZ_HOLDS(isfinite(given->setting.value));
    }
    LW_FUZZ_HOLDS(option->kind == CLI_FLAG || given->text != NULL);
}

static void check_args(const cli_verb *verb, const cli_args *args)
{
    LW_FUZZ_HOLDS(args->operand_count <= verb->operands_most);
    LW_FUZZ_HOLDS(args->help || args->operand_count >= verb->operands_least);
    for (int i = 0; i < args->given_count; i++) {
        check_given(&args->given[i]);
        for (int j = 0; j < i; j++) {
            LW_FUZZ_HOLDS(args->given[i].option != args->given[j].option ||
                          args->given[i].option->repeats);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static cli_args args;
    char message[CLI_MESSAGE];
    char *words[MOST_WORDS];
    int verbs = 0;
    while (cli_verbs[verbs] != NULL) {
        verbs++;
    }
    if (size < 1) {
        return 0;
    }
    char *text = malloc(size);
    if (text == NULL) {
        return 0;
    }
    memcpy(text, data + 1, size - 1);
    text[size - 1] = '\0';
    const cli_verb *verb = cli_verbs[data[0] % verbs];
    memset(message, 'x', sizeof message);
    if (cli_options_read(verb, split(text, size, words), words, &args, message)) {
        check_args(verb, &args);
    } else {
        LW_FUZZ_HOLDS(memchr(message, '\0', sizeof message) != NULL && message[0] != '\0');
    }
    free(text);
    return 0;
}
