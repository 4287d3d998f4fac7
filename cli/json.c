#include "json.h"

#include "file.h"
#include "text.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void write_value(FILE *to, json_t *value, int depth);

/* Fifteen digits where they read back to the same number, else sixteen or seventeen. */
static void write_real(FILE *to, double value)
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
        fwrite(text, 1, (size_t)(point - text), to);
        fputc('.', to);
        fputs(point + strlen(mark), to);
        return;
    }
    fputs(text, to);
    if (strpbrk(text, "e") == NULL) {
        fputs(".0", to);
    }
}

static void write_text(FILE *to, const json_t *value)
{
    fputc('"', to);
    const unsigned char *text = (const unsigned char *)json_string_value(value);
    for (size_t i = 0; i < json_string_length(value); i++) {
        if (text[i] == '"' || text[i] == '\\') {
            fprintf(to, "\\%c", text[i]);
        } else if (text[i] < 0x20 || text[i] == 0x7F) {
            fprintf(to, "\\u%04x", (unsigned)text[i]);
        } else {
            fputc(text[i], to);
        }
    }
    fputc('"', to);
}

static void new_line(FILE *to, int depth)
{
    fprintf(to, "\n%*s", 2 * depth, "");
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

static void write_list(FILE *to, json_t *list, int depth)
{
    bool flat = is_flat(list);
    fputc('[', to);
    for (size_t i = 0; i < json_array_size(list); i++) {
        fputs(i == 0 ? "" : flat ? ", " : ",", to);
        if (!flat) {
            new_line(to, depth + 1);
        }
        write_value(to, json_array_get(list, i), depth + 1);
    }
    if (!flat) {
        new_line(to, depth);
    }
    fputc(']', to);
}

static void write_object(FILE *to, json_t *object, int depth)
{
    bool first = true;
    fputc('{', to);
    for (void *at = json_object_iter(object); at != NULL; at = json_object_iter_next(object, at)) {
        fputs(first ? "" : ",", to);
        first = false;
        new_line(to, depth + 1);
        fprintf(to, "\"%s\": ", json_object_iter_key(at));
        write_value(to, json_object_iter_value(at), depth + 1);
    }
    if (!first) {
        new_line(to, depth);
    }
    fputc('}', to);
}

static void write_value(FILE *to, json_t *value, int depth)
{
    switch (json_typeof(value)) {
    case JSON_OBJECT:
        write_object(to, value, depth);
        break;
    case JSON_ARRAY:
        write_list(to, value, depth);
        break;
    case JSON_STRING:
        write_text(to, value);
        break;
    case JSON_INTEGER:
        fprintf(to, "%lld", (long long)json_integer_value(value));
        break;
    case JSON_REAL:
        write_real(to, json_real_value(value));
        break;
    case JSON_TRUE:
        fputs("true", to);
        break;
    case JSON_FALSE:
        fputs("false", to);
        break;
    case JSON_NULL:
        fputs("null", to);
        break;
    }
}

cli_exit cli_json_print(json_t *object)
{
    if (object == NULL) {
        return cli_fail("out of memory");
    }
    write_value(stdout, object, 0);
    putchar('\n');
    json_decref(object);
    return CLI_DONE;
}

bool cli_json_write(json_t *object, const char *path)
{
    char *text = NULL;
    size_t length = 0;
    FILE *to = object != NULL ? open_memstream(&text, &length) : NULL;
    bool good = to != NULL;
    if (good) {
        write_value(to, object, 0);
        fputc('\n', to);
        good = ferror(to) == 0;
        good = fclose(to) == 0 && good;
    }
    json_decref(object);
    if (!good) {
        cli_fail("out of memory");
    }
    good = good && cli_file_write(path, text, length);
    free(text);
    return good;
}

json_t *cli_json_vec3(lw_vec3 v)
{
    return json_pack("[f, f, f]", v.x, v.y, v.z);
}
