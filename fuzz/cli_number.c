/* A number with a unit, a setting, and every kind of list, from one text. What is read must be
 * finite and, written and read again, the same. */
#include "fuzz.h"

#include "options_parts.h"
#include "text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void check_number(const char *text, const char *unit)
{
    double value = 0.0, again = 0.0;
    if (cli_read_number(text, unit, &value)) {
        LW_FUZZ_HOLDS(isfinite(value));
        LW_FUZZ_HOLDS(cli_read_number(CLI_SHORT(value), NULL, &again) && again == value);
    }
}

static void check_setting(const char *text)
{
    char name[LW_CUT_MOST_NAME + 1];
    lw_override setting;
    if (cli_read_setting(text, name, &setting)) {
        LW_FUZZ_HOLDS(isfinite(setting.value) && setting.name == name);
        LW_FUZZ_HOLDS(strncmp(text, name, strlen(name)) == 0 && text[strlen(name)] == '=');
    }
}

static void check_list(const char *text, char separator, const char *unit, int least, int most)
{
    const cli_option option = {.name = "list",
                               .kind = CLI_NUMBERS,
                               .unit = unit,
                               .lowest = -1e6,
                               .highest = 1e6,
                               .separator = separator,
                               .least = least,
                               .most = most};
    char expected[CLI_EXPECTED];
    cli_given given;
    if (cli_value_read(&option, text, &given, expected)) {
        LW_FUZZ_HOLDS(given.count >= least && given.count <= most);
        for (int i = 0; i < given.count; i++) {
            LW_FUZZ_HOLDS(fabs(given.numbers[i]) <= 1e6);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char *const units[] = {NULL, "mm", "deg", "%", "ct"};
    char *text = malloc(size + 1);
    if (text == NULL) {
        return 0;
    }
    memcpy(text, data, size);
    text[size] = '\0';
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        check_number(text, units[i]);
        check_list(text, ',', units[i], 1, CLI_MOST_LIST);
        check_list(text, 'x', units[i], 3, 3);
    }
    check_setting(text);
    free(text);
    return 0;
}
