/* Linked into a lapwing for the tests: numbers are said the local way before main begins, as they
 * would be in a program that follows its user's locale. */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

__attribute__((constructor)) static void follow_the_locale(void)
{
    if (setlocale(LC_NUMERIC, "") == NULL || strcmp(localeconv()->decimal_point, ",") != 0) {
        fprintf(stderr, "no locale with a decimal comma\n");
        exit(99);
    }
}
