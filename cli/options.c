#include "options_parts.h"

#include <stdio.h>
#include <string.h>

/* As much of a wrong value as is shown. */
enum { SHOWN = 60 };

/* What reading carries along. */
typedef struct reader {
    const cli_verb *verb;
    int count, at;
    char *const *words;
    cli_args *args;
    char *message;
} reader;

static const cli_option common[] = {
    {.name = "json", .kind = CLI_FLAG, .help = "print one JSON object and nothing else"},
    {.name = "help", .letter = 'h', .kind = CLI_FLAG, .help = "tell what the verb does"},
    CLI_OPTIONS_END,
};

/* ---- finding options ---- */

const cli_option *cli_option_at(const cli_verb *verb, int i)
{
    int own = 0;
    while (verb->options != NULL && verb->options[own].name != NULL) {
        own++;
    }
    if (i < own) {
        return &verb->options[i];
    }
    int rest = i - own;
    return rest < 2 ? &common[rest] : NULL;
}

static const char *option_name_at(const void *context, int i)
{
    const cli_option *option = cli_option_at(context, i);
    return option == NULL ? NULL : option->name;
}

static const cli_option *find_long(const cli_verb *verb, const char *name, size_t length)
{
    const cli_option *option = NULL;
    for (int i = 0; (option = cli_option_at(verb, i)) != NULL; i++) {
        if (strlen(option->name) == length && memcmp(option->name, name, length) == 0) {
            return option;
        }
    }
    return NULL;
}

static const cli_option *find_letter(const cli_verb *verb, char letter)
{
    const cli_option *option = NULL;
    for (int i = 0; (option = cli_option_at(verb, i)) != NULL; i++) {
        if (option->letter != 0 && option->letter == letter) {
            return option;
        }
    }
    return NULL;
}

/* ---- complaining ---- */

static bool fail_text(reader *r, const char *text)
{
    snprintf(r->message, CLI_MESSAGE, "%s: %s", r->verb->name, text);
    return false;
}

static bool fail_value(reader *r, const cli_option *option, const char *text, const char *expected)
{
    bool whole = strlen(text) <= SHOWN;
    snprintf(r->message, CLI_MESSAGE, "%s: --%s: found '%.*s%s'; expected %.250s", r->verb->name,
             option->name, whole ? SHOWN : SHOWN - 3, text, whole ? "" : "...", expected);
    return false;
}

static bool fail_no_value(reader *r, const cli_option *option)
{
    char expected[CLI_EXPECTED];
    cli_given none;
    (void)cli_value_read(option, "", &none, expected);
    snprintf(r->message, CLI_MESSAGE, "%s: --%s: found no value; expected %.250s", r->verb->name,
             option->name, expected);
    return false;
}

static bool fail_unknown(reader *r, const char *word)
{
    char name[64];
    const char *bare = word + strspn(word, "-");
    snprintf(name, sizeof name, "%.*s", (int)strcspn(bare, "="), bare);
    const char *near = cli_nearest(name, option_name_at, r->verb);
    if (near != NULL) {
        snprintf(r->message, CLI_MESSAGE,
                 "%s: found '%.80s'; expected one of its options (did you mean --%s?)",
                 r->verb->name, word, near);
    } else {
        snprintf(r->message, CLI_MESSAGE,
                 "%s: found '%.80s'; expected one of its options (lapwing %s --help lists them)",
                 r->verb->name, word, r->verb->name);
    }
    return false;
}

/* ---- words ---- */

static bool given_before(const cli_args *args, const cli_option *option)
{
    for (int i = 0; i < args->given_count; i++) {
        if (args->given[i].option == option) {
            return true;
        }
    }
    return false;
}

static bool take_option(reader *r, const cli_option *option, const char *text)
{
    char line[160];
    if (!option->repeats && given_before(r->args, option)) {
        snprintf(line, sizeof line, "found --%s twice; expected it once", option->name);
        return fail_text(r, line);
    }
    if (r->args->given_count == CLI_MOST_GIVEN) {
        snprintf(line, sizeof line, "found more than %d options; expected at most that",
                 CLI_MOST_GIVEN);
        return fail_text(r, line);
    }
    cli_given *given = &r->args->given[r->args->given_count];
    *given = (cli_given){.option = option, .text = text};
    char expected[CLI_EXPECTED];
    if (!cli_value_read(option, text, given, expected)) {
        return fail_value(r, option, text, expected);
    }
    r->args->given_count++;
    return true;
}

/* The value behind an option: after its '=', or the next word. */
static bool take_value(reader *r, const cli_option *option, const char *joined)
{
    char line[200];
    if (option->kind == CLI_FLAG) {
        if (joined != NULL) {
            snprintf(line, sizeof line, "--%s: found a value; expected none", option->name);
            return fail_text(r, line);
        }
        return take_option(r, option, NULL);
    }
    if (joined == NULL) {
        bool none = r->at + 1 >= r->count || strncmp(r->words[r->at + 1], "--", 2) == 0;
        if (none) {
            return fail_no_value(r, option);
        }
        r->at++;
        joined = r->words[r->at];
    }
    return take_option(r, option, joined);
}

static bool take_dashed(reader *r, const char *word)
{
    if (word[1] != '-') {
        const cli_option *option = word[2] == '\0' ? find_letter(r->verb, word[1]) : NULL;
        return option != NULL ? take_value(r, option, NULL) : fail_unknown(r, word);
    }
    size_t length = strcspn(word + 2, "=");
    const cli_option *option = find_long(r->verb, word + 2, length);
    if (option == NULL) {
        return fail_unknown(r, word);
    }
    return take_value(r, option, word[2 + length] == '=' ? word + 3 + length : NULL);
}

static bool take_operand(reader *r, const char *word)
{
    char line[256];
    if (r->args->operand_count == r->verb->operands_most ||
        r->args->operand_count == CLI_MOST_OPERANDS) {
        snprintf(line, sizeof line, "found '%.80s'; expected %s%s", word,
                 r->verb->operands_most == 0 ? "options alone" : "no more than ",
                 r->verb->operands_most == 0 ? "" : r->verb->operands);
        return fail_text(r, line);
    }
    r->args->operands[r->args->operand_count++] = word;
    return true;
}

static bool finish(reader *r)
{
    char line[160];
    r->args->json = cli_has(r->args, "json");
    r->args->help = cli_has(r->args, "help");
    if (!r->args->help && r->args->operand_count < r->verb->operands_least) {
        snprintf(line, sizeof line, "found no %s; expected one (lapwing %s --help tells more)",
                 r->verb->operands, r->verb->name);
        return fail_text(r, line);
    }
    return true;
}

bool cli_options_read(const cli_verb *verb, int count, char *const *words, cli_args *out,
                      char *message)
{
    reader r = {verb, count, 0, words, out, message};
    bool only_operands = false;
    out->verb = verb;
    out->operand_count = 0;
    out->given_count = 0;
    for (; r.at < count; r.at++) {
        const char *word = words[r.at];
        bool good = true;
        if (!only_operands && strcmp(word, "--") == 0) {
            only_operands = true;
        } else if (!only_operands && word[0] == '-' && word[1] != '\0') {
            good = take_dashed(&r, word);
        } else {
            good = take_operand(&r, word);
        }
        if (!good) {
            return false;
        }
    }
    return finish(&r);
}
