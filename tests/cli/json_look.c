/* json_look [PATH…]: reads standard input, which must be one JSON object without a key twice and
 * nothing behind it. Prints its keys with their kinds, or the value at each path: "facets.0.name".
 */
#include <jansson.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *kind_of(const json_t *value)
{
    static const char *const names[] = {
        [JSON_OBJECT] = "object", [JSON_ARRAY] = "list",  [JSON_STRING] = "text",
        [JSON_INTEGER] = "whole", [JSON_REAL] = "number", [JSON_TRUE] = "truth",
        [JSON_FALSE] = "truth",   [JSON_NULL] = "null"};
    return names[json_typeof(value)];
}

static void print_keys(json_t *object)
{
    const char *key = NULL;
    json_t *value = NULL;
    json_object_foreach(object, key, value)
    {
        printf("%s %s\n", key, kind_of(value));
    }
}

static const json_t *at_path(const json_t *value, char *path)
{
    for (char *key = strtok(path, "."); key != NULL && value != NULL; key = strtok(NULL, ".")) {
        value = json_is_array(value) ? json_array_get(value, strtoul(key, NULL, 10))
                                     : json_object_get(value, key);
    }
    return value;
}

static int print_at(const json_t *object, char *path)
{
    const json_t *value = at_path(object, path);
    char *text =
        value == NULL ? NULL : json_dumps(value, JSON_ENCODE_ANY | JSON_REAL_PRECISION(12));
    printf("%s\n", text == NULL ? "absent" : text);
    free(text);
    return value == NULL;
}

int main(int argc, char **argv)
{
    json_error_t error;
    json_t *object = json_loadf(stdin, JSON_REJECT_DUPLICATES, &error);
    if (!json_is_object(object)) {
        fprintf(stderr, "not one JSON object: %s\n", object == NULL ? error.text : "another kind");
        return 1;
    }
    int failed = 0;
    for (int i = 1; i < argc; i++) {
        failed += print_at(object, argv[i]);
    }
    if (argc == 1) {
        print_keys(object);
    }
    json_decref(object);
    return failed > 0;
}
