/* JSON on standard output, or in a file. Built with jansson, written by our own hand: numbers in
 * the shortest text that reads back to the same bits, a list of numbers on one line. */
#ifndef LW_CLI_JSON_H
#define LW_CLI_JSON_H

#include "verb.h"

#include "geom/vec.h"

#include <jansson.h>

/* Prints the object and a newline, and lets go of it. An object that is NULL (out of memory) is
 * CLI_WRONG, with a line on standard error. */
cli_exit cli_json_print(json_t *object);

/* Writes the object and a newline to a file, whole or not at all, and lets go of it. Fails with one
 * line on standard error. */
bool cli_json_write(json_t *object, const char *path);

/* [x, y, z]. */
json_t *cli_json_vec3(lw_vec3 v);

#endif
