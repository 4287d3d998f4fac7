#include "help.h"

#include "options_parts.h"

#include "place.h"

#include "builtin.h"

#include <string.h>

/* ---- what may stand behind an option ---- */

/* Calls for the words that may follow, NULL at the end; none for a number. */
static const char *word_at(const cli_option *option, int i)
{
    if (option->kind == CLI_CHOICE) {
        return option->choices[i];
    }
    return option->names != NULL ? option->names(i) : NULL;
}

static void print_words(FILE *to, const cli_option *option)
{
    const char *word = NULL;
    for (int i = 0; (word = word_at(option, i)) != NULL; i++) {
        fprintf(to, "%s%s", i == 0 ? "" : " ", word);
    }
}

static bool takes_cut(const cli_verb *verb)
{
    return verb->operands != NULL && strstr(verb->operands, "CUT") != NULL;
}

static void print_cuts(FILE *to)
{
    for (int i = 0; i < lw_builtin_count(); i++) {
        fprintf(to, "%s%s", i == 0 ? "" : " ", lw_builtin_at(i)->name);
    }
}

static bool takes_place(const cli_verb *verb)
{
    return verb->operands != NULL && strstr(verb->operands, "PLACE") != NULL;
}

static void print_places(FILE *to)
{
    for (int i = 0; cli_place_name(i) != NULL; i++) {
        fprintf(to, "%s%s", i == 0 ? "" : " ", cli_place_name(i));
    }
}

static void print_verbs(FILE *to)
{
    for (int i = 0; cli_verbs[i] != NULL; i++) {
        fprintf(to, "%s%s", i == 0 ? "" : " ", cli_verbs[i]->name);
    }
}

/* ---- bash ---- */

/* One case a verb and option: what follows it. */
static void bash_values(FILE *to, const cli_verb *verb)
{
    const cli_option *option = NULL;
    for (int i = 0; (option = cli_option_at(verb, i)) != NULL; i++) {
        if (option->kind == CLI_FLAG) {
            continue;
        }
        fprintf(to, "    %s:--%s", verb->name, option->name);
        if (option->letter != 0) {
            fprintf(to, "|%s:-%c", verb->name, option->letter);
        }
        if (option->kind == CLI_FILE) {
            fputs(") compopt -o default; return ;;\n", to);
        } else {
            fputs(") list='", to);
            print_words(to, option);
            fputs("' ;;\n", to);
        }
    }
}

static void bash_options(FILE *to, const cli_verb *verb)
{
    fprintf(to, "    %s) list='", verb->name);
    const cli_option *option = NULL;
    for (int i = 0; (option = cli_option_at(verb, i)) != NULL; i++) {
        fprintf(to, "%s--%s", i == 0 ? "" : " ", option->name);
    }
    fputs("' ;;\n", to);
}

static void bash_operands(FILE *to, const cli_verb *verb)
{
    if (takes_cut(verb)) {
        fprintf(to, "    %s) list='", verb->name);
        print_cuts(to);
        fputs("'; compopt -o default ;;\n", to);
    } else if (takes_place(verb)) {
        fprintf(to, "    %s) list='", verb->name);
        print_places(to);
        fputs("'; compopt -o default ;;\n", to);
    } else if (verb->operands != NULL && strstr(verb->operands, "VERB") != NULL) {
        fprintf(to, "    %s) list='", verb->name);
        print_verbs(to);
        fputs("' ;;\n", to);
    }
}

static void each_verb(FILE *to, void (*print)(FILE *to, const cli_verb *verb))
{
    for (int i = 0; cli_verbs[i] != NULL; i++) {
        print(to, cli_verbs[i]);
    }
}

static void complete_bash(FILE *to)
{
    fputs("# Completion of lapwing for bash; made by: lapwing help --completion bash\n"
          "_lapwing() {\n"
          "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
          "    local verb=${COMP_WORDS[1]} list=\n"
          "    COMPREPLY=()\n"
          "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
          "        COMPREPLY=($(compgen -W '",
          to);
    print_verbs(to);
    fputs(" --help --version' -- \"$word\"))\n"
          "        return\n"
          "    fi\n"
          "    case $verb:$before in\n",
          to);
    each_verb(to, bash_values);
    fputs("    *) case $word in\n    -*) case $verb in\n", to);
    each_verb(to, bash_options);
    fputs("    esac ;;\n    *) case $verb in\n", to);
    each_verb(to, bash_operands);
    fputs("    esac ;;\n    esac ;;\n    esac\n"
          "    COMPREPLY=($(compgen -W \"$list\" -- \"$word\"))\n"
          "}\n"
          "complete -F _lapwing lapwing\n",
          to);
}

/* ---- fish and zsh ---- */

/* A text in single quotes for a shell. */
static void quote(FILE *to, const char *text)
{
    fputc('\'', to);
    for (; *text != '\0'; text++) {
        if (*text == '\'') {
            fputs("'\\''", to);
        } else {
            fputc(*text, to);
        }
    }
    fputc('\'', to);
}

static void fish_verb(FILE *to, const cli_verb *verb)
{
    fprintf(to, "complete -c lapwing -n __fish_use_subcommand -f -a %s -d ", verb->name);
    quote(to, verb->summary);
    fputc('\n', to);
    if (takes_cut(verb)) {
        fprintf(to, "complete -c lapwing -n '__fish_seen_subcommand_from %s' -a '", verb->name);
        print_cuts(to);
        fputs("'\n", to);
    }
    if (takes_place(verb)) {
        fprintf(to, "complete -c lapwing -n '__fish_seen_subcommand_from %s' -a '", verb->name);
        print_places(to);
        fputs("'\n", to);
    }
    const cli_option *option = NULL;
    for (int i = 0; (option = cli_option_at(verb, i)) != NULL; i++) {
        fprintf(to, "complete -c lapwing -n '__fish_seen_subcommand_from %s' -l %s", verb->name,
                option->name);
        if (option->letter != 0) {
            fprintf(to, " -s %c", option->letter);
        }
        if (option->kind != CLI_FLAG) {
            fputs(option->kind == CLI_FILE ? " -r -F" : " -x -a '", to);
            if (option->kind != CLI_FILE) {
                print_words(to, option);
                fputc('\'', to);
            }
        }
        fputs(" -d ", to);
        quote(to, option->help);
        fputc('\n', to);
    }
}

/* zsh reads bash's by its own compatibility layer. */
static void complete_zsh(FILE *to)
{
    fputs("#compdef lapwing\n# Completion of lapwing for zsh, by way of bash's.\n"
          "autoload -Uz bashcompinit && bashcompinit\n",
          to);
    complete_bash(to);
}

void cli_help_completion(FILE *to, cli_shell shell)
{
    if (shell == CLI_BASH) {
        complete_bash(to);
    } else if (shell == CLI_ZSH) {
        complete_zsh(to);
    } else {
        fputs("# Completion of lapwing for fish; made by: lapwing help --completion fish\n", to);
        each_verb(to, fish_verb);
    }
}
