#include "cut/text_file.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

char *text_of_file(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return NULL;
    }
    size_t capacity = 1u << 21;
    char *text = malloc(capacity);
    *length = text == NULL ? 0 : fread(text, 1, capacity - 1, file);
    fclose(file);
    if (text == NULL) {
        return NULL;
    }
    text[*length] = '\0';
    char *exact = realloc(text, *length + 1);
    return exact == NULL ? text : exact;
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

int each_file(const char *folder, const char *ending, void (*visit)(const char *path))
{
    enum { MOST_FILES = 500 };
    char *paths[MOST_FILES];
    int count = 0;
    DIR *directory = opendir(folder);
    const struct dirent *entry = NULL;
    while (directory != NULL && count < MOST_FILES && (entry = readdir(directory)) != NULL) {
        size_t name = strlen(entry->d_name);
        size_t tail = strlen(ending);
        size_t size = strlen(folder) + name + 2;
        if (name > tail && strcmp(entry->d_name + name - tail, ending) == 0) {
            paths[count] = malloc(size);
            snprintf(paths[count++], size, "%s/%s", folder, entry->d_name);
        }
    }
    if (directory != NULL) {
        closedir(directory);
    }
    qsort(paths, (size_t)count, sizeof paths[0], by_text);
    for (int i = 0; i < count; i++) {
        visit(paths[i]);
        free(paths[i]);
    }
    return count;
}
