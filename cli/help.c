#include "help.h"

#include "options_parts.h"
#include "text.h"

#include <string.h>

enum { INDENT = 2, COLUMN = 26 };

static const char about[] = "The workbench of people who cut faceted gemstones.";
static const char exits[] =
    "Exit status: 0 done; 1 done, and the answer is no (it cannot be cut, it does not fit);\n"
    "2 the input is wrong: one line on standard error says where, what was found and what was\n"
    "expected, and nothing is written.\n";

/* "-o, --out FILE" */
static void option_head(const cli_option *option, char *text, size_t capacity)
{
    char letter[8] = "";
    if (option->letter != 0) {
        snprintf(letter, sizeof letter, "-%c, ", option->letter);
    }
    snprintf(text, capacity, "%s--%s%s%s", letter, option->name, option->value == NULL ? "" : " ",
             option->value == NULL ? "" : option->value);
}

/* What may stand there, for people: "mm, 0.1 to 100". Empty where the help says all. */
static void option_range(const cli_option *option, char *text, size_t capacity)
{
    text[0] = '\0';
    if (option->kind == CLI_NUMBER || option->kind == CLI_NUMBERS) {
        snprintf(text, capacity, " (%s%s%s to %s)", option->unit == NULL ? "" : option->unit,
                 option->unit == NULL ? "" : ", ", CLI_SHORT(option->lowest),
                 CLI_SHORT(option->highest));
    } else if (option->kind == CLI_CHOICE) {
        size_t used = 0;
        for (int i = 0; option->choices[i] != NULL && used < capacity; i++) {
            used += (size_t)snprintf(text + used, capacity - used, "%s%s", i == 0 ? " (" : ", ",
                                     option->choices[i]);
        }
        if (used < capacity) {
            snprintf(text + used, capacity - used, ")");
        }
    }
}

static void print_option(FILE *to, const cli_option *option)
{
    char head[96], range[400], line[900];
    option_head(option, head, sizeof head);
    option_range(option, range, sizeof range);
    snprintf(line, sizeof line, "%s%s%s", option->help, range,
             option->repeats ? "; may be repeated" : "");
    int used = fprintf(to, "%*s%s", INDENT, "", head);
    if (used >= COLUMN) {
        fputc('\n', to);
        used = 0;
    }
    fprintf(to, "%*s", COLUMN - used, "");
    cli_fill_from(to, line, COLUMN, COLUMN);
}

/* Paragraphs parted by an empty line. */
static void print_details(FILE *to, const char *details)
{
    while (details != NULL && *details != '\0') {
        const char *end = strstr(details, "\n\n");
        size_t length = end == NULL ? strlen(details) : (size_t)(end - details);
        char paragraph[2000];
        snprintf(paragraph, sizeof paragraph, "%.*s", (int)length, details);
        fputc('\n', to);
        cli_fill(to, paragraph, 0);
        details = end == NULL ? NULL : end + 2;
    }
}

void cli_help_verb(FILE *to, const cli_verb *verb)
{
    fprintf(to, "lapwing %s%s%s [options]\n\n%s.\n", verb->name, verb->operands == NULL ? "" : " ",
            verb->operands == NULL ? "" : verb->operands, verb->summary);
    print_details(to, verb->details);
    fputs("\nOptions:\n", to);
    const cli_option *option = NULL;
    for (int i = 0; (option = cli_option_at(verb, i)) != NULL; i++) {
        print_option(to, option);
    }
    if (verb->examples != NULL) {
        fputs("\nExamples:\n", to);
        for (int i = 0; verb->examples[i] != NULL; i++) {
            fprintf(to, "  %s\n", verb->examples[i]);
        }
    }
}

void cli_help_all(FILE *to)
{
    fprintf(to, "lapwing VERB [operands] [options]\n\n%s\n\nVerbs:\n", about);
    for (int i = 0; cli_verbs[i] != NULL; i++) {
        fprintf(to, "  %-12s%s\n", cli_verbs[i]->name, cli_verbs[i]->summary);
    }
    fprintf(to,
            "\nlapwing VERB --help tells more. A CUT is the name of a built-in cut or the path of "
            "a text.\n\n%s",
            exits);
}

/* ---- man ---- */

/* Text for troff: '-' as it is typed, '\' kept, no line taken for a request. */
static void man_text(FILE *to, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '-') {
            fputs("\\-", to);
        } else if (*c == '\\') {
            fputs("\\e", to);
        } else if ((*c == '.' || *c == '\'') && (c == text || c[-1] == '\n')) {
            fprintf(to, "\\&%c", *c);
        } else if (*c == '\n' && c[1] == '\n') {
            fputs("\n.PP\n", to);
            c++;
        } else {
            fputc(*c, to);
        }
    }
}

static void man_option(FILE *to, const cli_option *option)
{
    char head[96], range[400];
    option_head(option, head, sizeof head);
    option_range(option, range, sizeof range);
    fputs(".TP\n.B ", to);
    man_text(to, head);
    fputc('\n', to);
    man_text(to, option->help);
    man_text(to, range);
    fputs(option->repeats ? "; may be repeated.\n" : ".\n", to);
}

static void man_verb(FILE *to, const cli_verb *verb)
{
    fprintf(to, ".SS lapwing %s ", verb->name);
    man_text(to, verb->operands == NULL ? "" : verb->operands);
    fputc('\n', to);
    man_text(to, verb->summary);
    fputs(".\n", to);
    if (verb->details != NULL) {
        fputs(".PP\n", to);
        man_text(to, verb->details);
        fputc('\n', to);
    }
    for (int i = 0; verb->options != NULL && verb->options[i].name != NULL; i++) {
        man_option(to, &verb->options[i]);
    }
    if (verb->examples != NULL) {
        fputs(".PP\nExamples:\n.RS\n.nf\n", to);
        for (int i = 0; verb->examples[i] != NULL; i++) {
            man_text(to, verb->examples[i]);
            fputc('\n', to);
        }
        fputs(".fi\n.RE\n", to);
    }
}

void cli_help_man(FILE *to)
{
    fputs(".TH LAPWING 1 \"\" \"lapwing " LW_VERSION "\" \"User Commands\"\n"
          ".SH NAME\nlapwing \\- ",
          to);
    man_text(to, about);
    fputs("\n.SH SYNOPSIS\n.B lapwing\n.I VERB\n[operands] [options]\n.SH DESCRIPTION\n"
          "A CUT is the name of a built\\-in cut or the path of a text.\n"
          "Every verb takes \\-\\-help, which tells what it does, and \\-\\-json, which prints one "
          "JSON object and nothing else.\n.SH VERBS\n",
          to);
    for (int i = 0; cli_verbs[i] != NULL; i++) {
        man_verb(to, cli_verbs[i]);
    }
    fputs(".SH EXIT STATUS\n", to);
    man_text(to, strchr(exits, ':') + 2);
}
