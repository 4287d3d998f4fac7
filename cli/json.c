#include "json.h"

#include "text.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void write_value(json_t *value, int depth);

/* Fifteen digits where they read back to the same number, else sixteen or seventeen. */
static void write_real(double value)
{
    char text[40];
    value += 0.0; /* no "-0" */
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, value);
        if (strtod(text, NULL) == value) {
            break;
        }
    }
    const char *mark = localeconv()->decimal_point;
    char *point = strstr(text, mark);
    if (point != NULL) {
        fwrite(text, 1, (size_t)(point - text), stdout);
        putchar('.');
        fputs(point + strlen(mark), stdout);
        return;
    }
    fputs(text, stdout);
    if (strpbrk(text, "e") == NULL) {
        fputs(".0", stdout);
    }
}

static void write_text(const json_t *value)
{
    putchar('"');
    const unsigned char *text = (const unsigned char *)json_string_value(value);
    for (size_t i = 0; i < json_string_length(value); i++) {
        if (text[i] == '"' || text[i] == '\\') {
            printf("\\%c", text[i]);
        } else if (text[i] < 0x20 || text[i] == 0x7F) {
            printf("\\u%04x", (unsigned)text[i]);
        } else {
            putchar(text[i]);
        }
    }
    putchar('"');
}

static void new_line(int depth)
{
    printf("\n%*s", 2 * depth, "");
}

static bool is_flat(const json_t *list)
{
    for (size_t i = 0; i < json_array_size(list); i++) {
        const json_t *item = json_array_get(list, i);
        if (json_is_array(item) || json_is_object(item)) {
            return false;
        }
    }
    return true;
}

static void write_list(json_t *list, int depth)
{
    bool flat = is_flat(list);
    putchar('[');
    for (size_t i = 0; i < json_array_size(list); i++) {
        fputs(i == 0 ? "" : flat ? ", " : ",", stdout);
        if (!flat) {
            new_line(depth + 1);
        }
        write_value(json_array_get(list, i), depth + 1);
    }
    if (!flat) {
        new_line(depth);
    }
    putchar(']');
}

static void write_object(json_t *object, int depth)
{
    bool first = true;
    putchar('{');
    for (void *at = json_object_iter(object); at != NULL; at = json_object_iter_next(object, at)) {
        fputs(first ? "" : ",", stdout);
        first = false;
        new_line(depth + 1);
        printf("\"%s\": ", json_object_iter_key(at));
        write_value(json_object_iter_value(at), depth + 1);
    }
    if (!first) {
        new_line(depth);
    }
    putchar('}');
}

static void write_value(json_t *value, int depth)
{
    switch (json_typeof(value)) {
    case JSON_OBJECT:
        write_object(value, depth);
        break;
    case JSON_ARRAY:
        write_list(value, depth);
        break;
    case JSON_STRING:
        write_text(value);
        break;
    case JSON_INTEGER:
        printf("%lld", (long long)json_integer_value(value));
        break;
    case JSON_REAL:
        write_real(json_real_value(value));
        break;
    case JSON_TRUE:
        fputs("true", stdout);
        break;
    case JSON_FALSE:
        fputs("false", stdout);
        break;
    case JSON_NULL:
        fputs("null", stdout);
        break;
    }
}

cli_exit cli_json_print(json_t *object)
{
    if (object == NULL) {
        return cli_fail("out of memory");
    }
    write_value(object, 0);
    putchar('\n');
    json_decref(object);
    return CLI_DONE;
}

json_t *cli_json_vec3(lw_vec3 v)
{
    return json_pack("[f, f, f]", v.x, v.y, v.z);
}
